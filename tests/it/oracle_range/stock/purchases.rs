//! What fills a drawer, and what it costs.

use crate::laws::RANGE;
use itertools::Itertools;
use lidladder::profile::{Pad, Shell, Size, Supply, Zone};
use lidladder::supply::{Found, Goods, articles, stock_up};
use lidladder::unit::{Id, Money};

#[test]
fn one_pad_sold_in_two_ways_is_one_article() {
    let gravel = RANGE.model("dunvarrick-gravel").expect("part of the demo range");
    let articles = articles(&gravel.shells[1]);
    let both = articles.iter().filter(|article| article.single.is_some() && !article.packs.is_empty());
    // Singly 18.00 each, or both in a pack for 29.00.
    let both = both.map(|article| (article.kind, article.worth.minor(), article.packs[0].1.minor())).collect_vec();
    assert_eq!(both, [((Zone::Brow, 7.0), 1_450, 1_450), ((Zone::Rear, 9.5), 1_450, 1_450)]);
}

#[test]
fn all_that_is_needed_comes_and_the_rest_is_told() {
    let mut with_packs = 0;
    for (shell, many) in RANGE.models().iter().flat_map(|model| &model.shells).cartesian_product([1, 2, 3_000]) {
        let articles = articles(shell);
        let need = vec![many; articles.len()];
        let purchase = stock_up(shell, &articles, &need);
        let is_much = need.iter().sum::<u32>() > 2_000;
        assert_eq!(purchase.found == Found::PadByPad, is_much, "{}", shell.id);
        let comes: usize = purchase.order.iter().map(|line| line.count as usize * line.pads.len()).sum();
        let kept = need.iter().chain(&purchase.left_over).map(|count| *count as usize).sum::<usize>();
        assert_eq!(comes, kept, "{}", shell.id);
        let paid: Money = purchase.order.iter().map(|line| line.price * line.count).sum();
        assert_eq!(paid, purchase.bill);
        let singly: Money = articles.iter().map(|article| article.worth * many).sum();
        assert!(purchase.bill >= singly, "no way is cheaper than each pad at its least");
        with_packs += purchase.order.iter().filter(|line| matches!(line.goods, Goods::Pack(_))).count();
    }
    assert!(with_packs > 0);
}

fn id(text: &str) -> Id {
    Id::try_from(text).expect("a name")
}

/// The same thickness for one size and for another are two pads: one does not do for the other.
#[test]
fn pads_for_other_sizes_are_other_pads() {
    let model = RANGE.model("wexmarsh-one").expect("part of the demo range");
    let known = &model.shells[0];
    let pad = |price, sizes: Option<&str>| Pad {
        zone: Zone::Sides,
        thickness: 10.0,
        supply: Supply::Single(Money::of_minor(price)),
        sizes: sizes.map(|label| vec![id(label)]),
    };
    let size = |label: &str| Size { label: id(label), ..known.sizes[0].clone() };
    let shell = Shell {
        sizes: vec![size("M"), size("L")],
        pads: vec![pad(2_000, Some("M")), pad(2_100, Some("L")), pad(1_900, Some("L"))],
        packs: Vec::new(),
        ..known.clone()
    };
    let articles = articles(&shell);
    let told = articles.iter().map(|article| (article.sizes.iter().join(" "), article.worth.minor())).collect_vec();
    assert_eq!(told, [("M".to_owned(), 2_000), ("L".to_owned(), 1_900)]);
    assert!(articles[0].serves((Zone::Sides, 10.0), &id("M")) && !articles[0].serves((Zone::Sides, 10.0), &id("L")));
    assert_eq!(stock_up(&shell, &articles, &[1, 2]).bill.minor(), 2_000 + 2 * 1_900);
}
