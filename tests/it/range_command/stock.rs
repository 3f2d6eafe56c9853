//! `range`: stock.
