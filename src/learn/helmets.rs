//! How helmets truly are inside, from all tries together.
//!
//! A customer's head ties the helmets together that it was in. Belief propagation over these ties: for each helmet and
//! customer, what the customer's other helmets say weighs the heads (each helmet as it is believed to be *without* this
//! customer), and what those heads report of the helmet weighs its possible departures on a grid. Exact where the ties
//! form no circle; docs/method.md says how far it is off where they do.

use super::lattice::{Lattice, log_normal};
use super::testimony::{Chances, Departure, HEADS, average};
use super::witness::{Shelf, Told, Witness};
use super::{Belief, belief::log_sum};
use crate::head::Outline;
use crate::profile::Shop;
use itertools::{Itertools, iproduct};
use std::collections::BTreeMap;

/// How a model departs from its profile.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct HelmetBelief {
    /// The model's place in the catalogue.
    pub(super) model: usize,
    /// Departure of the shape index before and now.
    pub(super) index: [Belief; 2],
    /// The shells that were tried.
    pub(super) shells: Vec<ShellBelief>,
}

/// How the centres of a shell depart from its profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ShellBelief {
    /// The shell's place in the model.
    pub(super) shell: usize,
    /// Departure of the centres before and now, mm of circumference.
    pub(super) centre: [Belief; 2],
    /// Tries in it.
    pub(super) tries: usize,
}

/// Rounds of messages: the third changes hardly a digit, more are for few helmets with many ties.
const MOST_SWEEPS: usize = 8;

/// Beliefs that move by less than this share of their standard deviation have settled.
const SETTLED: f64 = 0.02;

/// Learns the helmets that were tried. Cost: linear in tries × 256 heads × some hundred grid points × sweeps.
pub(super) fn helmets(shop: &Shop, shelf: &Shelf<'_>, witnesses: &[Witness]) -> Vec<HelmetBelief> {
    let mut learner = Learner::new(shop, shelf, witnesses);
    for _ in 0..MOST_SWEEPS {
        if learner.sweep() < SETTLED {
            break;
        }
    }
    learner.helmets.iter().map(Helmet::belief).collect()
}

struct Learner<'w> {
    helmets: Vec<Helmet<'w>>,
    witnesses: &'w [Witness],
    /// By witness and shell that he tried, what the shell says of his heads.
    messages: Vec<Vec<Vec<f32>>>,
    chances: Chances,
    outline: Outline,
}

struct Helmet<'w> {
    model: usize,
    prior: Belief,
    lattice: Lattice,
    index: Belief,
    shells: Vec<Shell<'w>>,
}

struct Shell<'w> {
    shell: usize,
    prior: Belief,
    lattice: Lattice,
    centre: Belief,
    told: Vec<Teller<'w>>,
}

/// Who tells what of a shell.
struct Teller<'w> {
    witness: usize,
    /// The place of the shell among those that the witness tells of.
    slot: usize,
    told: &'w Told,
}

impl<'w> Learner<'w> {
    fn new(shop: &Shop, shelf: &Shelf<'_>, witnesses: &'w [Witness]) -> Self {
        let mut models: BTreeMap<usize, BTreeMap<usize, Vec<Teller<'w>>>> = BTreeMap::new();
        for (at, witness) in witnesses.iter().enumerate() {
            for (slot, told) in witness.told.iter().enumerate() {
                let shells = models.entry(told.model).or_default();
                shells.entry(told.shell).or_default().push(Teller { witness: at, slot, told });
            }
        }
        let messages = witnesses.iter().map(|witness| vec![vec![1.0; HEADS]; witness.told.len()]).collect();
        let helmets = models.into_iter().map(|(model, shells)| Helmet::new(model, shells, shelf)).collect();
        Self { helmets, witnesses, messages, chances: Chances::of(shop.misreport), outline: shop.fit.outline }
    }

    /// One round of messages; by how many standard deviations a belief moved or changed its width at most.
    fn sweep(&mut self) -> f64 {
        let mut moved: f64 = 0.0;
        for at in 0..self.helmets.len() {
            let before = self.helmets[at].belief();
            let tables = self.tables(&self.helmets[at]);
            self.answer(at, &tables);
            let helmet = &mut self.helmets[at];
            helmet.settle(&tables);
            moved = moved.max(distance(&before, &helmet.belief()));
        }
        moved
    }

    /// By shell and visitor, the log probability of what was heard at every point of the grid.
    fn tables(&self, helmet: &Helmet<'_>) -> Vec<Vec<Vec<f64>>> {
        let of_told = |shell: &Shell<'_>, teller: &Teller<'_>| {
            let weights = self.weights_without(teller);
            let heads = &self.witnesses[teller.witness].heads;
            let mut chance = [0.0; HEADS];
            let logs = iproduct!(&helmet.lattice.values, &shell.lattice.values).map(|(index, centre)| {
                let departure = Departure { index: *index, centre: *centre };
                heads.probabilities(&teller.told.trials, departure, (self.chances, self.outline), &mut chance);
                average(&weights, &chance).max(f64::MIN_POSITIVE).ln()
            });
            logs.collect()
        };
        helmet.shells.iter().map(|shell| shell.told.iter().map(|teller| of_told(shell, teller)).collect()).collect()
    }

    /// The visitor's heads as his other helmets leave them, adding up to 1.
    fn weights_without(&self, teller: &Teller<'_>) -> Vec<f32> {
        let mut weights = self.witnesses[teller.witness].heads.weight.clone();
        for (slot, message) in self.messages[teller.witness].iter().enumerate() {
            if slot != teller.slot {
                weights.iter_mut().zip(message).for_each(|(weight, factor)| *weight *= factor);
            }
        }
        let total: f32 = weights.iter().sum();
        if total > 0.0 {
            weights.iter_mut().for_each(|weight| *weight /= total);
        }
        weights
    }

    /// What the helmet says of the heads of each visitor who tried others, too: as believed without that visitor.
    fn answer(&mut self, at: usize, tables: &[Vec<Vec<f64>>]) {
        let helmet = &self.helmets[at];
        let logs = helmet.log_density(tables);
        let mut answers = Vec::new();
        for ((shell, tables), logs) in helmet.shells.iter().zip(tables).zip(&logs) {
            let points = iproduct!(&helmet.lattice.values, &shell.lattice.values).collect_vec();
            for (teller, own) in shell.told.iter().zip(tables) {
                if self.messages[teller.witness].len() > 1 {
                    let without = logs.iter().zip(own).map(|(all, own)| all - own).collect_vec();
                    answers.push((teller.witness, teller.slot, self.message(teller, &points, &without)));
                }
            }
        }
        for (witness, slot, message) in answers {
            self.messages[witness][slot] = message;
        }
    }

    /// By head the mean probability of what was heard, over helmets with these log weights.
    fn message(&self, teller: &Teller<'_>, points: &[(&f64, &f64)], logs: &[f64]) -> Vec<f32> {
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let mut chance = [0.0; HEADS];
        let mut message = vec![0.0; HEADS];
        let heads = &self.witnesses[teller.witness].heads;
        let mut total = 0.0;
        for ((index, centre), log) in points.iter().zip(logs) {
            #[expect(clippy::cast_possible_truncation, reason = "from 0 to 1")]
            let weight = (log - top).exp() as f32;
            if weight > NOTHING {
                let departure = Departure { index: **index, centre: **centre };
                heads.probabilities(&teller.told.trials, departure, (self.chances, self.outline), &mut chance);
                message.iter_mut().zip(&chance).for_each(|(sum, chance)| *sum += weight * chance);
                total += weight;
            }
        }
        message.iter_mut().for_each(|sum| *sum /= total);
        message
    }
}

/// A share of the density that changes no message.
const NOTHING: f32 = 1e-5;

impl<'w> Helmet<'w> {
    fn new(model: usize, shells: BTreeMap<usize, Vec<Teller<'w>>>, shelf: &Shelf<'_>) -> Self {
        // Shells of a model have one index, and say one error of it.
        let index = shells.keys().next().map_or_else(Belief::default, |shell| shelf.doubt(model, *shell).index);
        let shells = shells.into_iter().map(|(shell, told)| {
            let prior = shelf.doubt(model, shell).centre;
            Shell { shell, prior, lattice: Lattice::first(prior), centre: prior, told }
        });
        Self { model, prior: index, lattice: Lattice::first(index), index, shells: shells.collect() }
    }

    /// By shell, the log density of every (index, centre), but for a constant. Shells share the index.
    fn log_density(&self, tables: &[Vec<Vec<f64>>]) -> Vec<Vec<f64>> {
        let (by_shell, by_index) = self.sums(tables);
        let over_centres = self.over_centres(&by_shell);
        let density = |(sums, over): (Vec<f64>, &Vec<f64>)| {
            let columns = sums.len() / by_index.len();
            sums.into_iter().enumerate().map(|(at, log)| log + by_index[at / columns] - over[at / columns]).collect()
        };
        by_shell.into_iter().zip(&over_centres).map(density).collect()
    }

    /// By shell the prior of the centre times what was heard, and by index all of it with the prior of the index.
    fn sums(&self, tables: &[Vec<Vec<f64>>]) -> (Vec<Vec<f64>>, Vec<f64>) {
        let of_shell = |(shell, tables): (&Shell<'_>, &Vec<Vec<f64>>)| {
            let centres = shell.lattice.values.iter().map(|centre| log_normal(shell.prior, *centre)).collect_vec();
            let mut sums = self.lattice.values.iter().flat_map(|_| centres.iter().copied()).collect_vec();
            for table in tables {
                sums.iter_mut().zip(table).for_each(|(sum, log)| *sum += log);
            }
            sums
        };
        let by_shell = self.shells.iter().zip(tables).map(of_shell).collect_vec();
        let over_centres = self.over_centres(&by_shell);
        let prior = self.lattice.values.iter().map(|index| log_normal(self.prior, *index));
        let by_index = prior.enumerate().map(|(at, log)| log + over_centres.iter().map(|over| over[at]).sum::<f64>());
        let by_index = by_index.collect();
        (by_shell, by_index)
    }

    /// By shell and index, summed over the centres.
    fn over_centres(&self, by_shell: &[Vec<f64>]) -> Vec<Vec<f64>> {
        let of_shell = |sums: &Vec<f64>| {
            let columns = sums.len() / self.lattice.values.len();
            sums.chunks(columns).map(|row| log_sum(row.iter().copied())).collect()
        };
        by_shell.iter().map(of_shell).collect()
    }

    /// Takes in what was heard, and lays the next grid around it.
    fn settle(&mut self, tables: &[Vec<Vec<f64>>]) {
        let densities = self.log_density(tables);
        let (_, by_index) = self.sums(tables);
        self.index = Belief::of_logs(&by_index.iter().copied().zip(self.lattice.values.iter().copied()).collect_vec());
        for (shell, density) in self.shells.iter_mut().zip(&densities) {
            let centres = self.lattice.values.iter().flat_map(|_| shell.lattice.values.iter().copied());
            shell.centre = Belief::of_logs(&density.iter().copied().zip(centres).collect_vec());
        }
        for shell in &mut self.shells {
            shell.lattice = shell.lattice.next(shell.centre);
        }
        self.lattice = self.lattice.next(self.index);
    }

    fn belief(&self) -> HelmetBelief {
        let shells = self.shells.iter().map(|shell| ShellBelief {
            shell: shell.shell,
            centre: [shell.prior, shell.centre],
            tries: shell.told.iter().map(|teller| teller.told.tries).sum(),
        });
        HelmetBelief { model: self.model, index: [self.prior, self.index], shells: shells.collect() }
    }
}

fn distance(before: &HelmetBelief, after: &HelmetBelief) -> f64 {
    let one = |before: Belief, after: Belief| {
        let sd = after.sd.max(f64::MIN_POSITIVE);
        let moved = (after.mean - before.mean).abs().max((after.sd - before.sd).abs());
        if moved > 0.0 { moved / sd } else { 0.0 }
    };
    let shells = before.shells.iter().zip(&after.shells).map(|(before, after)| one(before.centre[1], after.centre[1]));
    shells.fold(one(before.index[1], after.index[1]), f64::max)
}
