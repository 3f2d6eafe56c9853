//! One page about each model: whom it suits, what it takes, how it fails, and where to go then.
