//! Texts of a certain form: names, prices, words for reasons. Their forms are those that the reader holds them to.

use super::limits::number;
use crate::profile::Reason;
use crate::profile::bounds::{SCHEMA, TEXT_LENGTH};
use crate::unit::{Id, Money};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use std::borrow::Cow;

/// Letters and digits with single hyphens between them.
const NAME: &str = "[A-Za-z0-9]+(-[A-Za-z0-9]+)*";

/// Types that stand for a form of text in a schema, and have no values.
macro_rules! forms {
    ($($(#[$comment:meta])* $form:ident => $schema:expr;)*) => {$(
        $(#[$comment])*
        pub(in crate::profile) enum $form {}

        impl JsonSchema for $form {
            fn schema_name() -> Cow<'static, str> {
                stringify!($form).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                $schema
            }
        }
    )*};
}

forms! {
    /// The version of the files.
    Version => json_schema!({"type": "integer", "const": SCHEMA});
    /// An [`Id`].
    Name => json_schema!({"type": "string", "minLength": 1, "maxLength": Id::LONGEST, "pattern": format!("^{NAME}$")});
    /// A text for people.
    Text => json_schema!({"type": "string", "minLength": TEXT_LENGTH.start(), "maxLength": TEXT_LENGTH.end()});
    /// A [`Money`]. That it has at most two decimals is left to the reader: no binary fraction is a hundredth.
    Price => json_schema!({"type": "number", "minimum": 0, "maximum": number(Money::MOST)});
    /// A currency of ISO 4217.
    CurrencyCode => json_schema!({"type": "string", "pattern": "^[A-Z]{3}$"});
    /// The id of a [`Reason`].
    ReasonWord => json_schema!({
        "type": "string",
        "enum": Reason::ALL.map(Reason::id),
        "enumDescriptions": Reason::ALL.map(Reason::words),
    });
    /// A measure, a price or a mass as it is typed behind an option.
    Typed => json_schema!({"type": "string", "minLength": 1});
    /// MODEL/SIZE/REASON or MODEL/SIZE.
    HelmetAndReason => json_schema!({"type": "string", "pattern": format!("^{NAME}/{NAME}(/{NAME})?$")});
    /// MODEL or MODEL/SIZE.
    HelmetPart => json_schema!({"type": "string", "pattern": format!("^{NAME}(/{NAME})?$")});
}

/// A shape as judged by eye.
#[derive(JsonSchema)]
#[schemars(rename_all = "kebab-case")]
#[expect(dead_code, reason = "stands for the words in a schema")]
pub(in crate::profile) enum OvalWord {
    /// A long oval: clearly longer than broad.
    Long,
    /// An intermediate oval: as most heads.
    Intermediate,
    /// A round oval: nearly as broad as long.
    Round,
}

/// What was measured with.
#[derive(JsonSchema)]
#[schemars(rename_all = "kebab-case")]
#[expect(dead_code, reason = "stands for the words in a schema")]
pub(in crate::profile) enum ToolWord {
    /// A sliding or spreading caliper.
    Caliper,
    /// A ruler, or a book and a ruler.
    Ruler,
    /// A photograph or an app.
    Phone,
}

/// Something that a helmet must have.
#[derive(JsonSchema)]
#[schemars(rename_all = "kebab-case")]
#[expect(dead_code, reason = "stands for the words in a schema")]
pub(in crate::profile) enum ThingWord {
    /// The arms of spectacles have a channel.
    SpectacleChannel,
    /// An intercom has its place.
    IntercomReady,
    /// Much room before the chin, or no bar.
    ChinRoom,
}
