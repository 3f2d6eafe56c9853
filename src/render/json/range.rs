//! The range, for programs.

mod change;
mod design;
mod figures;
mod keep;
mod maker;
mod served;
mod stock;

pub(super) use figures::{CustomersBody, FigureBody, QuartilesBody, ShareBody};

pub use change::{RangeChangeDocument, range_change};
pub use design::{RangeDesignDocument, range_design};
pub use keep::{RangeKeepDocument, range_keep};
pub use maker::{RangeMakerDocument, SheetOrigin, range_maker};
pub use served::{RangeDocument, served};
pub use stock::{RangeStockDocument, range_stock};
