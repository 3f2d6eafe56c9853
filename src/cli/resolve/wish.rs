//! Which pads are wanted, from what was typed.

use super::{Resolver, shown};
use crate::catalogue::Catalogue;
use crate::cli::args::{TypedPads, TypedPayer};
use crate::diag::{Code, Diagnostic, Said, Sources, note};
use crate::fit::with_pads;
use crate::profile::{Model, PadRules, Payer, Shell, Size, Zone};
use crate::supply::{Kind, Purpose, Wish, on_offer, shell_that_takes, takes};
use crate::unit::plain;
use itertools::Itertools;

/// The wish, or everything that is wrong with it.
pub(in crate::cli) fn wish<'a>(
    typed: &TypedPads,
    catalogue: &'a Catalogue,
    sources: &mut Sources,
) -> Result<Wish<'a>, Vec<Diagnostic>> {
    let mut resolver = Resolver::default();
    let wish = resolver.wish(typed, catalogue, sources);
    resolver.finish(wish)
}

/// Pads as they were typed, each with its place.
pub(super) type Named = Vec<(Kind, Said)>;

impl Resolver {
    fn wish<'a>(&mut self, typed: &TypedPads, catalogue: &'a Catalogue, sources: &mut Sources) -> Option<Wish<'a>> {
        let model = self.model(&sources.say("MODEL", typed.model.clone()), catalogue);
        let said = sources.say("SIZE", typed.size.clone());
        let sized = model.and_then(|model| self.shell_and_size(&said, model));
        let pads = self.pads_said("ZONE=MM", &typed.pads, sources);
        let from = self.pads_said("--from", &typed.from, sources);
        let drawer = self.pads_said("--in-drawer", &typed.in_drawer, sources);
        let purpose = if typed.stock { Purpose::Stock } else { Purpose::Helmet };
        if purpose == Purpose::Helmet {
            self.once_a_zone(&pads);
        }
        self.once_a_zone(&from);
        let (model, (shell, size)) = model.zip(sized)?;
        let paid_by = typed.paid_by.map_or(catalogue.shop.pads.paid_by, |payer| match payer {
            TypedPayer::Customer => Payer::Customer,
            TypedPayer::Shop => Payer::Shop,
        });
        let kinds = |named: &Named| named.iter().map(|(kind, _)| *kind).collect_vec();
        let wish = Wish {
            model,
            shell,
            size,
            pads: kinds(&pads),
            sets: typed.sets,
            purpose,
            mounted: with_pads(size.standard, &kinds(&from)),
            drawer: kinds(&drawer),
            rules: PadRules { paid_by, ..catalogue.shop.pads },
        };
        let missing = wish.missing();
        let helmet = Helmet { model, shell, size };
        self.not_on_offer(helmet, pads.iter().filter(|(kind, _)| missing.contains(kind)));
        self.not_on_offer(helmet, from.iter().chain(&drawer).filter(|(kind, _)| !helmet.has(*kind)));
        Some(wish)
    }

    pub(super) fn shell_and_size<'a>(&mut self, said: &Said, model: &'a Model) -> Option<(&'a Shell, &'a Size)> {
        let label = self.size(said, model)?;
        model.size(&label)
    }

    fn pads_said(&mut self, name: &str, typed: &[String], sources: &mut Sources) -> Named {
        let said = typed.iter().map(|text| sources.say(name, text.clone())).collect_vec();
        said.into_iter().filter_map(|said| Some((self.pad_said(&said)?, said))).collect()
    }

    /// Pads in a row, each zone once; an error where none is named.
    pub(super) fn pads_written(&mut self, said: &Said, sources: &Sources) -> Named {
        let before = self.problems.len();
        let words = said.text.split_whitespace().map(|word| {
            let at = word.as_ptr() as usize - said.text.as_ptr() as usize;
            Said { text: word.to_owned(), span: sources.part(said, at..at + word.len()) }
        });
        let named =
            words.collect_vec().into_iter().filter_map(|said| Some((self.pad_said(&said)?, said))).collect_vec();
        self.once_a_zone(&named);
        if named.is_empty() && self.problems.len() == before {
            let help = "write zones and mm: sides=10 cheeks=28; zones are brow, rear, sides, crown, cheeks";
            self.error("answer-form", said, "pads are zones with a thickness", "none here", help);
        }
        named
    }

    pub(super) fn pad_said(&mut self, said: &Said) -> Option<Kind> {
        let Some((zone, mm)) = said.text.split_once('=') else {
            let message = format!("`{}` is no pad", shown(&said.text));
            let help = "write the zone and the thickness in mm: sides=10";
            self.error("pads-form", said, message, "not ZONE=MM", help);
            return None;
        };
        let part = |text: &str| Said { text: text.trim().to_owned(), span: said.span };
        let zone = self.word(Some(&part(zone)), "a zone", &Zone::ALL.map(|zone| (zone.name(), zone)));
        let mm = self.number(&part(mm.trim().trim_end_matches("mm")), "a thickness in mm, such as 10");
        zone.zip(mm)
    }

    /// One helmet has one pad in a zone.
    fn once_a_zone(&mut self, named: &Named) {
        for (at, ((zone, _), said)) in named.iter().enumerate() {
            let Some((_, first)) = named[..at].iter().find(|((earlier, _), _)| earlier == zone) else { continue };
            let message = format!("two different pads are named for the {}", zone.name());
            note(&mut self.problems, || {
                Diagnostic::error(Code("pads-form"), message)
                    .at(said.span, "the second one")
                    .see(first.span, "the first one")
                    .help("a helmet takes one of them; for the drawer ask with --stock")
            });
        }
    }

    pub(super) fn not_on_offer<'s>(&mut self, helmet: Helmet<'_>, named: impl Iterator<Item = &'s (Kind, Said)>) {
        let Helmet { model, shell, size } = helmet;
        for ((zone, mm), said) in named {
            let offered = on_offer(shell, size, *zone).into_iter().map(plain).join(", ");
            let title = format!("{} in {}", model.name, size.label);
            let help = match offered.as_str() {
                "" => format!("no other pads are sold for the {} of {title}", zone.name()),
                offered => format!("on offer for the {} of {title}: {offered} mm", zone.name()),
            };
            let pad = format!("{} {} mm", zone.name(), plain(*mm));
            match shell_that_takes(model, shell, (*zone, *mm)) {
                Some(other) => {
                    let message = format!(
                        "the pad {pad} is made for another shell of {}: {}, with the sizes {}",
                        model.name,
                        other.id,
                        other.sizes.iter().map(|size| size.label.as_str()).join(", ")
                    );
                    let help = format!("pads of one shell fit no other, however alike they look; {help}");
                    self.error("pad-for-other-shell", said, message, "not for this size", &help);
                }
                None => {
                    let message = format!("there is no pad {pad} for {title}");
                    self.error("pad-not-on-offer", said, message, "not on offer", &help);
                }
            }
        }
    }
}

/// A helmet that pads are named for.
#[derive(Clone, Copy)]
pub(super) struct Helmet<'a> {
    pub(super) model: &'a Model,
    pub(super) shell: &'a Shell,
    pub(super) size: &'a Size,
}

impl Helmet<'_> {
    /// Whether there is such a pad for it at all: its own, or one on offer.
    pub(super) fn has(&self, kind: Kind) -> bool {
        takes(self.shell, self.size, kind)
    }
}
