//! What a trainee can say.

use crate::profile::Zone;
use crate::unit::Id;

/// What a trainee says.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// Fetch this helmet. It has its standard pads but in the zones that are named.
    Helmet {
        /// The model.
        model: Id,
        /// The size.
        size: Id,
        /// Zones with other pads in mm, at most one of each.
        pads: Vec<(Zone, f64)>,
    },
    /// Put these pads into the helmet on the head, zone and mm, at most one of each zone.
    Pads(Vec<(Zone, f64)>),
    /// No pads help: another helmet, whichever.
    NoPads,
    /// The shape is long (0), intermediate (1) or round (2).
    Shape(usize),
    /// It is an absolute stop.
    Stop,
    /// It is none.
    NoStop,
    /// Nothing more is worth trying.
    Leave,
}

/// Why an answer is none: it is asked again, and nothing is counted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NoAnswer {
    /// Something else was asked.
    #[error("that is no answer to this question")]
    NotAsked,
    /// The profiles don't have such a helmet, or it isn't among those that are practised with.
    #[error("there is no such helmet here")]
    NoHelmet,
    /// Pads without a helmet to put them in.
    #[error("no helmet is on the head that other pads could be put into")]
    NothingOn,
    /// Pads that nobody sells for any shell of the model.
    #[error("no shell of that model takes such a pad")]
    NoPad {
        /// The zone.
        zone: Zone,
        /// The thickness, mm.
        mm: f64,
    },
    /// The customer won't put on another helmet.
    #[error("the customer has had enough helmets: other pads in this one, or nothing more")]
    Enough,
    /// It has ended.
    #[error("that customer has gone")]
    Over,
}
