//! The integration tests: one binary, one module per subject.

mod docs;
mod fit_command;
mod fuzz_corpus;
mod laws;
mod oracle_head;
mod oracle_plan;
mod oracle_sizes;
mod plan_command;
mod repo;
mod schema;
mod support;
mod wrong_input;
