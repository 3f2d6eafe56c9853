//! Text for people: 80 columns, plain where nobody sees colours.

mod cautions;
mod check;
mod fit;
mod head;
mod init;
mod page;
mod plan;

pub use cautions::{FIT_CAUTIONS, PLAN_CAUTIONS};
pub use check::check;
pub use fit::fit;
pub use init::init;
pub use plan::plan;
