//! The integration tests: one binary, one module per subject.

mod audit_command;
mod check_command;
mod check_rules;
mod counter_command;
mod docs;
mod fallbacks_command;
mod fit_command;
mod fuzz_corpus;
mod init_command;
mod journal_command;
mod laws;
mod learn_command;
mod oracle_audit;
mod oracle_calibration;
mod oracle_check;
mod oracle_head;
mod oracle_learn;
mod oracle_plan;
mod oracle_sizes;
mod oracle_sketch;
mod plan_command;
mod repo;
mod schema;
mod sketch_command;
mod support;
mod wrong_input;
