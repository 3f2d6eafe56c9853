//! `lidladder pads`: the cheapest way to a pad set, and who pays.

mod page;

use crate::laws::RANGE;
use crate::support::{eighty_plain_columns, once};
use itertools::Itertools;
use lidladder::fit::{pad_sets, price};
use lidladder::profile::{Model, PadRules, Payer, Shell, Size, Supply, Trade, Zone};
use lidladder::supply::{Kind, Purpose, Supplied, Wish, supply};
use lidladder::unit::Money;
use rstest::rstest;

#[rstest]
#[case("pads wexmarsh-one M sides=9.5 cheeks=27.5", 0)]
#[case("pads dunvarrick-gravel M brow=7 rear=12 cheeks=27 --sets 2 --in-drawer brow=7", 0)]
#[case("pads wexmarsh-one M sides=9.5 sides=17.5 --stock --sets 20", 0)]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str, #[case] status: i32) {
    let run = once(line);
    assert_eq!((run.status, run.stderr.as_str()), (status, ""), "{}", run.stdout);
    eighty_plain_columns(&run.stdout);
    let words = run.stdout.split_whitespace().join(" ");
    assert!(words.contains("Only the maker's own pads for that model and size; never stack, cut or mix them"));
}

#[rstest]
#[case::another_shell("pads wexmarsh-one M rear=14.5", "pad-for-other-shell", "on offer")]
#[case::not_sold("pads wexmarsh-one M sides=13", "pad-not-on-offer", "9.5, 11.5, 13.5, 15.5, 17.5 mm")]
#[case::a_zone_without_pads("pads haspenfell-penny M cheeks=20", "pad-not-on-offer", "no other pads are sold")]
#[case::in_the_helmet("pads wexmarsh-one M sides=9.5 --from sides=1", "pad-not-on-offer", "sides=1")]
#[case::no_pad("pads wexmarsh-one M sides", "pads-form", "sides=10")]
#[case::no_zone("pads wexmarsh-one M temple=10", "unknown-word", "brow, rear, sides, crown, cheeks")]
#[case::no_number("pads wexmarsh-one M sides=ten", "not-a-number", "digits")]
#[case::twice("pads wexmarsh-one M sides=9.5 sides=11.5", "pads-form", "--stock")]
#[case::no_model("pads wexmarsh M sides=9.5", "unknown-model", "wexmarsh-one")]
#[case::no_size("pads wexmarsh-one Q sides=9.5", "unknown-size", "XXL")]
fn a_mistake_is_told_with_what_to_do(#[case] line: &str, #[case] code: &str, #[case] help: &str) {
    let run = once(line);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    let words = run.stderr.split_whitespace().join(" ");
    assert!(words.contains(&format!("error[{code}]")) && words.contains(help), "{}", run.stderr);
}

fn found(id: &str, label: &str) -> (&'static Model, &'static Shell, &'static Size) {
    let model = RANGE.model(id).expect("part of the demo range");
    let (shell, size) = model.sizes().find(|(_, size)| size.label.as_str() == label).expect("a size of it");
    (model, shell, size)
}

fn wish<'a>((model, shell, size): (&'a Model, &'a Shell, &'a Size), pads: &[Kind]) -> Wish<'a> {
    let rules = PadRules { paid_by: Payer::Customer, free_up_to: Money::default() };
    Wish {
        model,
        shell,
        size,
        pads: pads.to_vec(),
        sets: 1,
        purpose: Purpose::Helmet,
        mounted: size.standard,
        drawer: Vec::new(),
        rules,
    }
}

fn answer<'a>(wish: &Wish<'a>) -> Supplied<'a> {
    supply(wish).expect("all of it is on offer")
}

const THIN_BROW: Kind = (Zone::Brow, 7.0);
const THIN_REAR: Kind = (Zone::Rear, 9.5);

/// The pads of the Gravel in M: brow 7 and rear 9.5 singly 18.00 each, or both in a pack for 29.00.
#[test]
fn a_pack_is_taken_where_it_is_cheaper_and_only_there() {
    let gravel = found("dunvarrick-gravel", "M");
    let both = answer(&wish(gravel, &[THIN_BROW, THIN_REAR]));
    assert_eq!((both.best.bill.minor(), both.best.order.len(), both.best.left_over.len()), (2_900, 1, 0));
    assert_eq!(both.second.as_ref().map(|way| way.bill.minor()), Some(3_600), "two single ones");
    let one = answer(&wish(gravel, &[THIN_BROW]));
    assert_eq!((one.best.bill.minor(), one.best.left_over.len()), (1_800, 0));
    let second = one.second.expect("the pack would do");
    assert_eq!((second.bill.minor(), second.left_over[0].kind), (2_900, THIN_REAR));
    assert_eq!(second.left_value().minor(), 1_450, "half of the pack");
    // Three of one and two of the other: two packs and a single one.
    let several =
        Wish { purpose: Purpose::Stock, ..wish(gravel, &[THIN_BROW, THIN_BROW, THIN_BROW, THIN_REAR, THIN_REAR]) };
    assert_eq!(answer(&several).best.bill.minor(), 2 * 2_900 + 1_800);
}

#[test]
fn what_is_in_the_drawer_is_not_bought() {
    let gravel = found("dunvarrick-gravel", "M");
    let stocked = Wish { drawer: vec![THIN_BROW], ..wish(gravel, &[THIN_BROW, THIN_REAR]) };
    let answer = answer(&stocked);
    assert_eq!((answer.best.bill.minor(), answer.best.from_drawer[0].kind), (1_800, THIN_BROW));
    assert_eq!(answer.best.drawer_value().minor(), 1_450, "the least that it would cost: half of the pack");
    assert_eq!(answer.settlement.customer.minor(), 1_800 + 1_450);
    assert_eq!(answer.settlement.shop.minor(), 1_450, "the shop sold a pad that it had");
}

/// Tollern credits half: 15.5 mm side pads cost 22.00, 34.5 mm cheek pads 34.00.
#[test]
fn standard_pads_go_back_for_credit_and_others_stay() {
    let one = found("wexmarsh-one", "M");
    let wanted = [(Zone::Sides, 9.5), (Zone::Cheeks, 27.5)];
    let exchanged = answer(&wish(one, &wanted)).settlement;
    assert_eq!(exchanged.goes_back.iter().map(|stack| stack.value.minor()).collect_vec(), [1_100, 1_700]);
    assert_eq!((exchanged.customer.minor(), exchanged.shop.minor()), (5_600 - 2_800, 0));
    let mut from = wish(one, &wanted);
    *from.mounted.get_mut(Zone::Sides) = Some(17.5);
    let settled = answer(&from).settlement;
    assert_eq!((settled.stays.as_slice(), settled.credit.minor()), ([(Zone::Sides, 17.5)].as_slice(), 1_700));
    let gravel = answer(&wish(found("dunvarrick-gravel", "M"), &[THIN_BROW])).settlement;
    assert_eq!(
        (gravel.goes_back.len(), gravel.stays.len(), gravel.credit.minor()),
        (0, 1, 0),
        "Orveld takes nothing back"
    );
}

#[rstest]
#[case(Payer::Customer, 0, 2_800)]
#[case(Payer::Customer, 1_000, 1_800)]
#[case(Payer::Customer, 9_000, 0)]
#[case(Payer::Shop, 0, 0)]
fn who_pays_is_the_shops_matter(#[case] paid_by: Payer, #[case] free: u64, #[case] customer: u64) {
    let wanted = [(Zone::Sides, 9.5), (Zone::Cheeks, 27.5)];
    let rules = PadRules { paid_by, free_up_to: Money::of_minor(free) };
    let settled = answer(&Wish { rules, ..wish(found("wexmarsh-one", "M"), &wanted) }).settlement;
    assert_eq!(settled.customer.minor(), customer);
    assert_eq!(
        settled.shop.minor(),
        i64::try_from(customer).unwrap() - 2_800,
        "what the maker gets less the customer's part"
    );
}

#[test]
fn pads_that_are_in_the_helmet_already_cost_nothing() {
    let one = found("wexmarsh-one", "M");
    let nothing = answer(&wish(one, &[(Zone::Sides, 15.5)]));
    assert!(nothing.best.order.is_empty() && nothing.second.is_none());
    assert_eq!(nothing.settlement.goes_back.len(), 0);
    let stock = answer(&Wish { purpose: Purpose::Stock, ..wish(one, &[(Zone::Sides, 15.5)]) });
    assert_eq!((stock.best.bill.minor(), stock.settlement.customer.minor()), (2_200, 0), "the drawer wants one");
}

/// The least price of single pads and packs that hold all of these, found by looking at every choice of offers.
fn by_force(shell: &Shell, size: &Size, pads: &[Kind]) -> u64 {
    let holds = |at: usize, kind: &Kind| {
        let is_it = |pad: &&lidladder::profile::Pad| {
            pad.fits_size(&size.label) && pad.zone == kind.0 && (pad.thickness - kind.1).abs() < 1e-9
        };
        shell.pads.iter().enumerate().filter(|(_, pad)| is_it(pad)).any(|(k, pad)| match pad.supply {
            Supply::Single(_) => k == at,
            Supply::Pack(pack) => shell.pads.len() + pack == at,
        })
    };
    let price = |at: usize| match shell.pads.get(at) {
        Some(pad) => match pad.supply {
            Supply::Single(price) => price.minor(),
            Supply::Pack(_) => 0,
        },
        None => shell.packs[at - shell.pads.len()].price.minor(),
    };
    let useful = (0..shell.pads.len() + shell.packs.len()).filter(|at| pads.iter().any(|kind| holds(*at, kind)));
    let ways = useful.collect_vec().into_iter().powerset();
    let enough = ways.filter(|way| pads.iter().all(|kind| way.iter().any(|at| holds(*at, kind))));
    enough.map(|way| way.iter().map(|at| price(*at)).sum()).min().expect("sets are made of what is on offer")
}

/// What `fit` says of every pad set of the range is the least price. Singles, and every pack that holds what isn't sold
/// singly, would cost more for some of them: where a pack holds two pads that are sold singly as well.
#[test]
fn a_set_costs_the_least_that_buys_it() {
    let mut cheaper = 0;
    for model in RANGE.models() {
        for (shell, size) in model.sizes() {
            for set in pad_sets(shell, size) {
                let changed = set.iter().filter_map(|(zone, mm)| mm.map(|mm| (zone, mm)));
                let changed =
                    changed.filter(|(zone, mm)| size.standard.get(*zone).is_some_and(|own| (own - mm).abs() > 1e-9));
                let pads = changed.collect_vec();
                let least = by_force(shell, size, &pads);
                assert_eq!(price(&set, shell, size).minor(), least, "{} {}: {pads:?}", model.id, size.label);
                let singly = |kind: &Kind| {
                    let alike =
                        shell.pads.iter().filter(|pad| pad.zone == kind.0 && (pad.thickness - kind.1).abs() < 1e-9);
                    alike
                        .filter_map(
                            |pad| if let Supply::Single(price) = pad.supply { Some(price.minor()) } else { None },
                        )
                        .min()
                };
                let singles: Option<u64> = pads.iter().map(singly).sum();
                cheaper += usize::from(singles.is_some_and(|singles| singles > least));
            }
        }
    }
    assert!(cheaper > 20, "{cheaper} sets are cheaper with a pack");
}

/// Money neither appears nor is lost, a drawer never makes anything dearer, and more sets never cost more than as many
/// orders.
#[test]
fn accounts_add_up_over_the_whole_range() {
    let mut asked = 0;
    for model in RANGE.models() {
        for (shell, size) in model.sizes() {
            let sets = pad_sets(shell, size);
            for set in sets.iter().step_by(sets.len().div_ceil(7)) {
                let pads = set
                    .iter()
                    .filter_map(|(zone, mm)| mm.map(|mm| (zone, mm)))
                    .filter(|(zone, _)| *zone != Zone::Crown);
                let pads = pads.collect_vec();
                let plain = Wish { sets: 3, ..wish((model, shell, size), &pads) };
                let drawer = pads.iter().take(2).copied().collect_vec();
                let stocked = Wish { drawer, ..plain.clone() };
                let bill = answer(&plain).best.bill;
                assert!(bill <= answer(&Wish { sets: 1, ..plain.clone() }).best.bill * 3);
                assert!(answer(&stocked).best.bill <= bill);
                for wish in [plain, stocked] {
                    let Supplied { best, second, settlement } = answer(&wish);
                    let [bill, customer, credit] = [best.bill, settlement.customer, settlement.credit]
                        .map(|money| i64::try_from(money.minor()).unwrap());
                    assert_eq!(settlement.shop.minor(), customer + credit - bill);
                    assert_eq!(
                        best.used + best.left_value(),
                        best.bill,
                        "each pad of a pack has its part of the price"
                    );
                    assert!(second.is_none_or(|second| second.bill >= best.bill));
                    assert!(model.trade != Trade::Sale || credit == 0);
                    asked += 1;
                }
            }
        }
    }
    assert!(asked > 300, "{asked}");
}
