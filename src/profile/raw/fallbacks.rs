//! `fallbacks.yaml`: what the shop tries next, by reason.

use crate::profile::schema::{Name, ReasonWord, Text, Version};
use schemars::JsonSchema;
use serde::Deserialize;

/// The shop's rules: after this helmet failed for this reason, try that one.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "fallbacks.yaml: the shop's rules")]
pub(crate) struct FallbackFile {
    /// Version of the file's form: always 1.
    #[schemars(with = "Version")]
    pub(crate) schema: u32,
    /// The rules, each one habit of the shop; of several that hold, the one whose helmet fits most often is taken.
    pub(crate) edges: Vec<RawEdge>,
}

/// One rule.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawEdge {
    /// The helmet that failed: the id of a model.
    #[schemars(with = "Name", extend("examples" = ["example-middle"]))]
    pub(crate) from: String,
    /// Why it failed.
    #[schemars(with = "ReasonWord")]
    pub(crate) reason: String,
    /// The helmet to try next: the id of a model.
    #[schemars(with = "Name", extend("examples" = ["example-long"]))]
    pub(crate) to: String,
    /// What the shop says about it; it stands in the plan.
    #[schemars(with = "Text", extend("examples" = ["a finger narrower at the ears"]))]
    pub(crate) note: String,
    /// Which size of the next helmet: `same` label, the next one `up` or `down`, or a label of it; any if left out.
    #[schemars(with = "Option<Name>", extend("examples" = ["same", "up", "down", "L"]))]
    pub(crate) size: Option<String>,
}
