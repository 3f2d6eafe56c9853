//! The range: a new model.
