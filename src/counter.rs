//! A session with a customer at the counter, step by step.
