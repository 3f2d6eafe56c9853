//! What must be said wherever a fitter acts on what is shown.

/// What no pad may pass.
pub(in crate::render) const STOPS: &str =
    "A helmet that rolls off, turns on the head, or whose strap can't hold is out at once, whatever the pads.";
const PADS: &str = "Only the maker's own pads for that model and size; never stack, cut or mix them.";
const MARK: &str = "The approval mark must be there. Replace a helmet after an impact.";
const LAW: &str = "The maker's instructions and the local law come first.";

/// Beside a plan.
pub const PLAN_CAUTIONS: &[&str] =
    &["A plan is no fit check: only the helmet on the head tells.", STOPS, PADS, MARK, LAW];

/// On the card of a model.
pub const CARD_CAUTIONS: &[&str] =
    &["A card is no fit check: only the helmet on the head tells.", STOPS, PADS, MARK, LAW];

/// Beside one helmet.
pub const FIT_CAUTIONS: &[&str] =
    &["A figure is no fit check: only the helmet on the head tells.", STOPS, PADS, MARK, LAW];

/// Beside an order of pads.
pub const PADS_CAUTIONS: &[&str] = &[
    PADS,
    "Put the helmet on once more after a swap: only the helmet on the head tells.",
    "The maker's own terms and instructions come first.",
];

/// Beside what is sent to a customer who is away.
pub const AWAY_CAUTIONS: &[&str] = &[
    "A figure is no fit check: only the helmet on the head tells, and nobody rides before it was checked.",
    STOPS,
    PADS,
    MARK,
    LAW,
];

/// Beside results of practice.
pub const DRILL_CAUTIONS: &[&str] =
    &["A head that the program plays is no fit check: only the helmet on the head tells.", STOPS, PADS, MARK, LAW];

/// Beside the shop's rules.
pub const FALLBACKS_CAUTIONS: &[&str] =
    &["A rule is a habit of the shop and no fit check: only the helmet on the head tells.", STOPS, LAW];

/// Beside what a customer takes home.
pub const COUNTER_CAUTIONS: &[&str] = &[STOPS, PADS, MARK, LAW];

/// Beside a profile from experience.
pub const SKETCH_CAUTIONS: &[&str] = &[
    "A sketch is what was said and what some heads showed: no measurement and no fit check.",
    "Check pads, sizes and shells on the helmet itself before you write them down.",
    STOPS,
    LAW,
];

/// Beside rules that were weighed or proposed.
pub const AUDIT_CAUTIONS: &[&str] =
    &["A rule says what to try next, never that it fits: only the helmet on the head tells.", STOPS, PADS, MARK, LAW];

/// Beside a new model.
pub const DESIGN_CAUTIONS: &[&str] = &[
    "A share of many computed heads is no fit check: only the helmet on the head tells.",
    "A maker builds what you ask for as they can: weigh the profile of what they send before you order more.",
];

/// Beside what was learned from journals.
pub const LEARN_CAUTIONS: &[&str] = &[
    "What was learned is a figure for plans and no fit check: only the helmet on the head tells.",
    "Look at the helmet before you take a change over: a new liner or a new label explains much.",
    STOPS,
    LAW,
];

/// Beside figures of a whole range.
pub const RANGE_CAUTIONS: &[&str] = &[
    "A share of customers is a figure for buying and no fit check: only the helmet on the head tells.",
    PADS,
    MARK,
    LAW,
];
