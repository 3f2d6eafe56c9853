//! Text for people: 80 columns, plain where nobody sees colours.

mod audit;
mod away;
mod cards;
mod cautions;
mod check;
mod counter;
mod drill;
mod fallbacks;
mod fit;
mod head;
mod init;
mod journal;
mod learn;
mod own_population;
mod pads;
mod page;
mod paste;
mod plan;
mod proposal;
mod range;
mod sheet;
mod sketch;
mod why;

pub(in crate::render) use audit::thousands;
pub(in crate::render) use cautions::STOPS;
pub(in crate::render) use head::known;
pub(in crate::render) use page::{mm, percent, whole_minutes};

pub use crate::render::plan_words::end;
pub use audit::audit;
pub use away::away;
pub use cards::cards;
pub use cautions::{
    AUDIT_CAUTIONS, AWAY_CAUTIONS, CARD_CAUTIONS, COUNTER_CAUTIONS, DESIGN_CAUTIONS, DRILL_CAUTIONS,
    FALLBACKS_CAUTIONS, FIT_CAUTIONS, LEARN_CAUTIONS, PADS_CAUTIONS, PLAN_CAUTIONS, RANGE_CAUTIONS, SKETCH_CAUTIONS,
};
pub use check::check;
pub use counter::{COUNTER_HELP, counter_kept, counter_left, counter_remarks, counter_step, counter_summary};
pub use drill::{
    DrillLook, drill_begins, drill_explained, drill_heard, drill_help, drill_pads, drill_paper, drill_sheet, drill_task,
};
pub use fallbacks::fallbacks;
pub use fit::fit;
pub use init::init;
pub use journal::{journal, verified};
pub use learn::learn;
pub use own_population::own_population;
pub use pads::pads;
pub use page::PROMPT;
pub use paste::paste;
pub use plan::plan;
pub use proposal::proposal;
pub use range::{range_change, range_design, range_keep, range_maker, range_stock, served};
pub use sheet::sheet;
pub use sketch::{rarely, sketch};
pub use why::why;
