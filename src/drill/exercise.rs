//! What a trainee is asked.

/// A kind of practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Exercise {
    /// A customer from the first helmet to the last.
    Session,
    /// A helmet failed, and why: what now?
    Next,
    /// Which shape a head has.
    Shape,
    /// A helmet failed, and why: which pads, or none?
    Pads,
    /// Whether something seen is an absolute stop.
    Stop,
}

impl Exercise {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Session, Self::Next, Self::Shape, Self::Pads, Self::Stop];

    /// How options and files write it.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Session => "session",
            Self::Next => "next",
            Self::Shape => "shape",
            Self::Pads => "pads",
            Self::Stop => "stop",
        }
    }

    /// The exercise that files write so.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|exercise| exercise.id() == id)
    }

    /// How output says it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Session => "whole sessions",
            Self::Next => "the next step",
            Self::Shape => "the shape",
            Self::Pads => "pads",
            Self::Stop => "stops",
        }
    }

    /// Whether one answer ends it, so that it can stand on paper.
    #[must_use]
    pub fn is_single(self) -> bool {
        self != Self::Session
    }
}
