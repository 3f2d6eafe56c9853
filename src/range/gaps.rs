//! Where customers go without, as regions in words.
