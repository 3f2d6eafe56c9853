//! The range against computations and figures from elsewhere.

mod keep;
mod laws;
mod men;
mod plain;
mod sql;
mod stock;
