//! The new model that would win most customers.
