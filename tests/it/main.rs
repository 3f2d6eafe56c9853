//! The integration tests: one binary, one module per subject.

mod oracle_head;
