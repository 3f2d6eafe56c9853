//! A list of customers who tried a new helmet.

use crate::profile::schema::Version;
use schemars::JsonSchema;
use serde::Deserialize;

/// Who tried a new helmet: the same texts as the option `--tried` takes.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "the file behind --tries")]
pub(crate) struct TriesFile {
    /// Version of the file's form: always 1.
    #[schemars(with = "Version")]
    pub(crate) schema: u32,
    /// One text a customer, as SIZE/HEAD/OUTCOME.
    pub(crate) tries: Vec<String>,
}
