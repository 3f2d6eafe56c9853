//! What is seen at the counter, and whether it is an absolute stop. Common practice, no source.

/// Something that is seen or said at the counter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Situation {
    /// What is seen or said, without the word for it.
    pub seen: &'static str,
    /// Whether it is an absolute stop.
    pub is_stop: bool,
    /// Why.
    pub why: &'static str,
}

const fn stop(seen: &'static str, why: &'static str) -> Situation {
    Situation { seen, is_stop: true, why }
}

const fn none(seen: &'static str, why: &'static str) -> Situation {
    Situation { seen, is_stop: false, why }
}

/// All of them, stops and others in turn.
pub const SITUATIONS: &[Situation] = &[
    stop(
        "You lift the rear edge. The helmet tips forward over the brow and would come off.",
        "it rolls off forward: out in this size, whatever the pads",
    ),
    none(
        "The brow presses after five minutes. The helmet stays put in every check.",
        "the brow presses: thinner pads there, or a longer oval",
    ),
    stop(
        "You push the chin bar up and back. The helmet slides to the nape.",
        "it rolls off backward: out in this size, whatever the pads",
    ),
    none(
        "The cheeks are pushed up a little. Everything else is snug.",
        "cheeks give way most: thinner cheek pads if it bites",
    ),
    stop(
        "You hold the helmet and the customer turns the head. The head moves inside, the helmet doesn't.",
        "it turns on the head: out in this size, whatever the pads",
    ),
    none(
        "You hold the helmet and the customer turns the head. The skin of the brow moves with the pads.",
        "that is how it should be",
    ),
    stop(
        "The strap is closed and pulled. It slips open by a finger's breadth each time.",
        "the strap can't hold: nothing else counts",
    ),
    none("The strap is snug, two fingers go under it, and it holds.", "that is how it should be"),
    stop(
        "It is snug and pleases. Inside there is a maker's name, but no approval mark on any label.",
        "without an approval mark it is no helmet for the road",
    ),
    none("It is louder than the old one, the customer says.", "noise is a reason for another model, not a stop"),
    stop(
        "The customer's own helmet fell from a tank at speed last year and looks fine. Could it get new pads?",
        "after an impact it is replaced: the damage is not to be seen",
    ),
    none("A finger fits between the temple and the pad on both sides.", "it is loose at the sides: thicker pads there"),
    stop(
        "All round it needs 3 mm more. The customer would put a second pad on the first.",
        "pads are never stacked: another size or model",
    ),
    none(
        "The glasses press their sidepieces against the temples.",
        "spectacles clash: a model with a channel for them",
    ),
    stop(
        "The cheek pads of the next shell look alike. With some scissors they would go in.",
        "pads are never cut, and those of one shell never go into another",
    ),
    none("The helmet is tight to put on, and snug once it sits.", "that is how it should be"),
    stop(
        "Too loose, but the customer says that hair and a cap will fill it, and you can pull it off with the strap closed.",
        "it comes off with the strap closed: out in this size",
    ),
    none(
        "Front to back there is room for a finger at the nape; it stays on in every check.",
        "loose front to back: thicker pads at the rear",
    ),
    stop(
        "The shell has a crack of two centimetres under the lining's edge; it came so from the box.",
        "a cracked shell protects nobody: back to the maker",
    ),
    none("The chin touches the bar when the customer speaks.", "a reason for a model with more room at the chin"),
    stop(
        "One strap is frayed at its rivet. The customer only rides short ways.",
        "a strap that may tear can't hold: nothing else counts",
    ),
    none("The lower edge meets the neck when the customer looks up.", "a reason for another model, not a stop"),
];
