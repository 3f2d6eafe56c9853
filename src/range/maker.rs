//! What a maker should hear.
