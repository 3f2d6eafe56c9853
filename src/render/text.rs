//! Text for people: 80 columns, plain where nobody sees colours.

mod cautions;
mod check;
mod fit;
mod head;
mod init;
mod page;
mod paste;
mod plan;
mod sketch;
mod why;

pub use cautions::{FIT_CAUTIONS, PLAN_CAUTIONS, SKETCH_CAUTIONS};
pub use check::check;
pub use fit::fit;
pub use init::init;
pub use paste::paste;
pub use plan::{end, plan};
pub use sketch::{rarely, sketch};
pub use why::why;
