//! Text for people: 80 columns, plain where nobody sees colours.

mod cautions;
mod fit;
mod head;
mod page;
mod paste;
mod plan;
mod sketch;

pub use cautions::{FIT_CAUTIONS, PLAN_CAUTIONS, SKETCH_CAUTIONS};
pub use fit::fit;
pub use paste::paste;
pub use plan::plan;
pub use sketch::{rarely, sketch};
