//! The integration tests: one binary, one module per subject.

mod docs;
mod fit_command;
mod oracle_head;
mod plan_command;
mod repo;
mod schema;
mod support;
mod wrong_input;
