//! What every size and pad set fits, as boxes.
