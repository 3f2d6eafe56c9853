//! What the starter teaches is right: a shop copies it, with its mistakes if it had any.

use crate::support::Folder;
use lidladder::catalogue::{Beginning, Catalogue, Origin, beginning, load};
use lidladder::diag::Sources;
use lidladder::fit::Candidate;
use lidladder::profile::{Kind, Model, Origin as Known, Reason, Shell, Supply, Zone};
use lidladder::unit::Id;
use std::collections::BTreeSet;

fn starter() -> Catalogue {
    let folder = Folder::new();
    folder.run("init mine").good();
    load(&Origin::Folder(folder.path().join("mine")), &mut Sources::default()).expect("the starter is in order")
}

fn text(path: &str) -> String {
    beginning(Beginning::Starter).into_iter().find(|file| file.path == path).expect("a file of the starter").text
}

/// The assumptions are those of the demo range, but for the name; and each is called one.
#[test]
fn the_shop_assumes_what_the_demo_shop_does() {
    let built_in = load(&Origin::BuiltIn, &mut Sources::default()).expect("in order");
    let mut shop = starter().shop;
    assert_ne!(shop.name, built_in.shop.name);
    assert!(!shop.name.contains("demo"));
    shop.name.clone_from(&built_in.shop.name);
    assert_eq!(shop, built_in.shop);
    assert_eq!(starter().populations(), built_in.populations());
    // A figure stands on a line that calls it an assumption, or below such a comment; one comes from surveys.
    let mut is_called = false;
    for line in text("shop.yaml").lines().skip(1) {
        let (said, comment) = line.split_once('#').map_or((line, None), |(said, comment)| (said, Some(comment)));
        let here = comment.is_some_and(|text| text.to_lowercase().contains("assumption") || text.contains("surveys"));
        let has_figure = said.contains(|c: char| c.is_ascii_digit()) && !said.starts_with("schema");
        assert!(!has_figure || here || is_called, "not called an assumption: {line}");
        // A comment of its own holds for the lines below it, up to an empty one.
        is_called = !line.is_empty() && (is_called || (here && said.trim().is_empty()));
    }
}

#[test]
fn labels_follow_each_other_a_centimetre_apart() {
    for model in starter().models() {
        let ranges: Vec<_> = model.sizes().map(|(_, size)| size.circumference).collect();
        assert!(ranges.windows(2).all(|pair| (pair[1].0 - pair[0].1 - 10.0).abs() < 1e-9), "{}: {ranges:?}", model.id);
    }
}

/// The sizes of a shell leave the same room between its liners, within what nobody could see.
#[test]
fn sizes_of_a_shell_agree_about_its_liner() {
    let catalogue = starter();
    let candidates = Candidate::of_models(catalogue.models(), &catalogue);
    let mut pairs = 0;
    for pair in candidates.windows(2).filter(|pair| std::ptr::eq(pair[0].shell, pair[1].shell)) {
        let [one, other] = [&pair[0], &pair[1]].map(|candidate| candidate.cavity(&catalogue.shop.fit));
        let names = format!("{}, {}: {one:?}, {other:?}", pair[0].title(), pair[1].title());
        assert!((0..2).all(|axis| (one[axis] - other[axis]).abs() < 1.5), "{names}");
        assert!((one[2] - other[2]).abs() < 3.0, "{names}");
        pairs += 1;
    }
    assert_eq!(pairs, 6);
}

#[test]
fn what_was_measured_agrees_with_index_and_label() {
    let catalogue = starter();
    let mut measured = 0;
    for candidate in Candidate::of_models(catalogue.models(), &catalogue) {
        let (nominal, model) = (&candidate.nominal, candidate.model);
        if candidate.size.measured.is_some() {
            let (index, label) = (model.interior.shape_index, candidate.size.centre());
            assert!((nominal.shape_index - index).abs() < 0.3, "{}: {nominal:?}", candidate.title());
            assert!((nominal.circumference - label).abs() < 1.0, "{}: {nominal:?}", candidate.title());
            assert_eq!(model.interior.origin, Known::Measured);
            measured += 1;
        }
    }
    assert_eq!(measured, 4);
}

fn offered(shell: &Shell, zone: Zone) -> Vec<f64> {
    shell.pads.iter().filter(|pad| pad.zone == zone).map(|pad| pad.thickness).collect()
}

#[test]
fn pads_on_offer_are_in_order() {
    for model in starter().models() {
        for (shell, size) in model.sizes() {
            for (zone, standard) in size.standard.iter() {
                let offered = offered(shell, zone);
                let at = format!("{} {} {}", model.id, size.label, zone.name());
                let standard = standard.expect("the starter shows every zone");
                assert!(offered.is_empty() || offered.contains(&standard), "{at}: the standard pad can't be bought");
                assert!(offered.is_sorted_by(|a, b| a < b), "{at}: {offered:?}");
                assert!(offered.is_empty() || *model.swap_minutes.get(zone) > 0.0, "{at}: no minutes");
            }
            let is_used = |pack| shell.pads.iter().any(|pad| pad.supply == Supply::Pack(pack));
            assert!((0..shell.packs.len()).all(is_used), "{} {}: an empty pack", model.id, shell.id.as_str());
        }
        let attributes = &model.attributes;
        assert_eq!(attributes.chin_room.is_none(), model.kind == Kind::OpenFace, "{}", model.id);
        assert!(!attributes.approvals.is_empty() && attributes.noise_db.is_some(), "{}", model.id);
    }
}

/// Every way of knowing and selling that a profile can say.
#[test]
fn the_starter_teaches_every_key() {
    let catalogue = starter();
    let has = |what: &dyn Fn(&Model) -> bool| catalogue.models().iter().any(what);
    let pads = |model: &Model| model.shells.iter().flat_map(|shell| shell.pads.clone()).collect::<Vec<_>>();
    assert!((2..=3).contains(&catalogue.models().len()));
    assert!(has(&|model| model.interior.origin == Known::ByEye && model.interior.sd.is_some()));
    assert!(has(&|model| model.interior.centre_sd.is_some() && model.shells.len() == 2));
    assert!(has(&|model| model.sizes().all(|(_, size)| size.measured.is_some() && size.face_width.is_some())));
    assert!(has(&|model| pads(model).iter().any(|pad| matches!(pad.supply, Supply::Single(_)))));
    assert!(has(&|model| pads(model).iter().any(|pad| matches!(pad.supply, Supply::Pack(_)))));
    assert!(has(&|model| pads(model).iter().any(|pad| pad.sizes.is_some())));
    assert!(has(&|model| pads(model).is_empty() && model.shells.len() == 1), "one that can't be tuned");
    let comments = text("helmets/example.yaml").lines().filter(|line| line.contains('#')).count();
    assert!(comments > 30, "{comments} comments");
}

#[test]
fn rules_go_where_geometry_goes() {
    let catalogue = starter();
    let index = |id: &Id| catalogue.model(id.as_str()).expect("a model").interior.shape_index;
    for edge in catalogue.edges() {
        let step = index(&edge.to) - index(&edge.from);
        match edge.reason {
            Reason::TooRound | Reason::BrowRearPress | Reason::LooseSides => assert!(step < 0.0, "{edge:?}"),
            Reason::TooOval | Reason::TemplesPress | Reason::LooseFrontToBack => assert!(step > 0.0, "{edge:?}"),
            _ => {}
        }
        let [from, to] = [&edge.from, &edge.to].map(|id| catalogue.model(id.as_str()).expect("a model"));
        match edge.reason {
            Reason::TooHeavy => assert!(to.attributes.mass_g < from.attributes.mass_g, "{edge:?}"),
            Reason::TooNoisy => assert!(to.attributes.noise_db < from.attributes.noise_db, "{edge:?}"),
            Reason::OverBudget => assert!(to.price < from.price, "{edge:?}"),
            Reason::SpectaclesClash => assert!(to.attributes.spectacle_channel, "{edge:?}"),
            _ => {}
        }
    }
    let reached: BTreeSet<_> = catalogue.edges().iter().map(|edge| &edge.to).collect();
    let left: BTreeSet<_> = catalogue.edges().iter().map(|edge| &edge.from).collect();
    assert!(catalogue.models().iter().all(|model| reached.contains(&model.id) && left.contains(&model.id)));
    let spoken_for: BTreeSet<_> = catalogue.edges().iter().map(|edge| edge.reason.id()).collect();
    assert_eq!(spoken_for.len(), Reason::ALL.len(), "{spoken_for:?}");
    // For one reason no way leads back: with three models, two rules after each other at most.
    for edge in catalogue.edges() {
        let next =
            |from: &Id| catalogue.edges().iter().find(|other| other.from == *from && other.reason == edge.reason);
        let second = next(&edge.to);
        assert!(second.is_none_or(|second| second.to != edge.from && next(&second.to).is_none()), "{edge:?}");
    }
}
