//! How practice is read.

/// The shop's assumptions about trainees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PracticeRules {
    /// A choice is a slip if it costs this many minutes more than the best one.
    pub slip_from: f64,
    /// Who slips in this share of the choices where it can be should practise it.
    pub weak_from: f64,
    /// It is said once it is this probable.
    pub sure_from: f64,
    /// The share of slips of somebody who has it in hand, known beforehand.
    pub usual_slips: f64,
    /// How many choices that counts for.
    pub usual_weight: f64,
    /// So many choices where a habit could be slipped into count, those of earlier runs behind those of this one (a whole
    /// number is meant).
    pub looks_back: f64,
    /// A head whose shape is less probable than this is no fair question.
    pub clear_shape: f64,
    /// So many customers after a slip its like comes again; twice as many each time after that went well.
    pub again_after: f64,
    /// So many days after a slip its like comes again; twice as many each time after that went well.
    pub again_after_days: f64,
}
