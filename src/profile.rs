//! Valid profiles: helmets, the shop's assumptions and rules, as the computation may trust them.
//!
//! Reading goes one way: text → [`raw`](self) structs with places → checked values here, with every problem
//! collected on the way. Nothing downstream checks a profile again.

mod away_rules;
mod bounds;
mod buying_rules;
mod complaint;
mod edge;
mod learning_rules;
mod model;
mod pad_rules;
mod place;
mod practice_rules;
mod raw;
mod reason;
mod resolve;
mod schema;
mod shop;
mod sketch_rules;
mod yaml;
mod zone;

pub use away_rules::AwayRules;
pub use bounds::{
    Bounds, CENTRE_MM, CENTRE_SD_MM, CUSTOMERS_PER_WEEK, DELIVERY_DAYS, INDEX_SD, LABEL_CM, MISREPORT, MOST_PADS,
    PAD_MM, SERVICE_LEVEL, SHAPE_INDEX, SHARE,
};
pub use buying_rules::{BuyingRules, StockingRules};
pub use complaint::is_no_better;
pub use edge::{Edge, SizeHint};
pub use learning_rules::LearningRules;
pub use model::{
    Attributes, ChinRoom, Interior, Kind, MeasuredInterior, Model, Origin, Pack, Pad, Shell, Size, Supply, Trade,
};
pub use pad_rules::{PadRules, Payer};
pub use place::{Place, PlaceIndex, Placed};
pub use practice_rules::PracticeRules;
pub use reason::{Nature, Reason};
pub use resolve::{CustomerNotes, Family, Read, Rules, Unclear, customer, fallbacks, helmets, population, shop, tries};
pub use schema::FileSchema;
pub use shop::{
    Auditing, Bands, Checking, FitRules, Measurer, Minutes, Plausible, ProfileError, ProfileErrors, Session,
    ShapeWords, Shop, Tool,
};
pub use sketch_rules::SketchRules;
pub use yaml::{MOST_BYTES, text_of};
pub use zone::{Axis, ByZone, Zone};
