//! The words of a measuring sheet, the same on every kind of page.

use crate::away::Spot;
use crate::head::Measure;

/// What it is called.
pub(super) const TITLE: &str = "Measure your head at home";

/// What is needed.
pub(super) const NEEDED: &str = "A soft tape, a ruler of 30 cm, two books with straight, hard covers, a table, a \
     second person who reads the numbers, and ten minutes.";

/// Before the first reading.
pub(super) const BEFORE: &[&str] = &[
    "Hair flat, as it will be under the helmet. No cap, no clips, no plait at the back, no spectacles.",
    "Sit upright and look straight ahead. The second person measures.",
    "All readings in millimetres, as they are: don't round, and don't look at the last one.",
];

/// How often, in which order.
pub(super) const ROUNDS: &str = "Go through the list once from top to bottom, then a second and a third time. Take tape \
     and books off in between. Write every reading down, also one that looks wrong.";

/// What to do with the readings.
pub(super) const SEND: &[&str] = &[
    "All three readings of each line, not one of them and not their mean. If you have room for one only, send the one \
     in the middle.",
    "A line that you could not measure: leave it empty. Half of the sheet helps, too; a guess doesn't.",
    "If you have a helmet: which one, in which size, and where it presses or is loose.",
    "What kind of helmet you look for, up to which price, and whether you wear spectacles.",
];

/// What usually goes wrong.
pub(super) const SLIPS: &[&str] = &[
    "The tape hangs lower or higher at the back than it should: it must run over the rearmost point.",
    "The tape is pulled tight, or has a finger under it.",
    "The books are not parallel, or press the head; they only touch.",
    "The ruler is read from its edge instead of from its zero.",
];

/// What a helmet that was sent is looked at for, at home, in this order.
pub(super) const CHECKS: &[&str] = &[
    "Strap closed as the maker says. Try to roll the helmet off forward from behind, then backward from the front. Turn \
     it with your head held still. If it rolls off, turns on the head, or the strap can't hold: send it back.",
    "Even pressure all round, no gap at the temples, cheeks touched. Keep it on for ten minutes indoors: a spot that \
     hurts or burns is no fit.",
    "Change nothing inside, and don't ride with it before it is kept. Write down where it presses or is loose, and \
     send that with it if it goes back.",
];

/// Where exactly, and how. The measures are those of ISO 7250-1, in plain words.
pub(super) fn how(measure: Measure) -> &'static str {
    match measure {
        Measure::Circumference => {
            "Lay the tape around the head: in front a finger's breadth above the brows, at the back over the point that \
             stands out most. Level on both sides, above the ears, snug and not tight."
        }
        Measure::Length => {
            "From the point between the brows, just above the nose, to the point at the back that stands out most. Hold \
             one book upright against each, covers parallel, and measure from cover to cover."
        }
        Measure::Breadth => {
            "Where the head is widest, above and a little behind the ears. One book upright against each side, covers \
             parallel, and measure from cover to cover. Try a little higher and lower: the largest counts."
        }
        Measure::FaceWidth => {
            "Where the face is widest across the cheekbones, in front of the ears. Books as before; they touch the bone \
             and don't press into the cheek."
        }
    }
}

/// A measure at the head of a line.
pub(super) fn name(measure: Measure) -> &'static str {
    match measure {
        Measure::Circumference => "Circumference",
        Measure::Length => "Length",
        Measure::Breadth => "Breadth",
        Measure::FaceWidth => "Face width",
    }
}

/// With what.
pub(super) fn tool(spot: &Spot) -> &'static str {
    if spot.measure == Measure::Circumference { "tape" } else { "books and ruler" }
}

/// What to expect of the readings; nothing where the shop says nothing.
pub(super) fn exactness(spots: &[Spot]) -> Option<String> {
    let usual = |measure: Measure| spots.iter().find(|spot| spot.measure == measure)?.sd;
    let (tape, books) = (usual(Measure::Circumference)?, usual(Measure::Length)?);
    Some(format!(
        "One reading at home is usually off by {tape} mm with the tape and by {books} mm with books and ruler. That is \
         counted with. Three readings are better than one, but a slip that is made three times stays."
    ))
}
