//! t
#![allow(warnings)]
#![allow(clippy::all)]
use lidladder::head::*;
use lidladder::plan::*;
use lidladder::*;
fn main() {
    let a: Vec<f64> = std::env::args().skip(1).map(|x| x.parse().unwrap()).collect();
    let t0 = std::time::Instant::now();
    let mut sources = diag::Sources::default();
    let cat = catalogue::load(&catalogue::Origin::BuiltIn, &mut sources).unwrap_or_else(|e| panic!("{e:?}"));
    println!("load {:?}", t0.elapsed());
    let pop = cat.population("adults").unwrap();
    let sds = [3.0, 1.5, 1.5, 1.5];
    let readings: Vec<Reading> = a[1..]
        .iter()
        .enumerate()
        .filter(|x| *x.1 > 0.0)
        .map(|(i, v)| Reading { measure: Measure::ALL[i], value: *v, sd: sds[i] })
        .collect();
    let head = Posterior::new(pop, &readings, None);
    let q = Query {
        head,
        measured: readings.iter().map(|r| r.measure).collect(),
        worn: vec![],
        models: cat.models().iter().collect(),
        seed: a[0] as u64,
        tries: 4,
        minutes: None,
        lead: Lead::ShopFirst,
    };
    let t = std::time::Instant::now();
    let p = plan::plan(&cat, &q);
    println!("plan {:?}", t.elapsed());
    println!("{:?}", p.head);
    for r in p.ranking.iter().take(10) {
        println!(
            "{:40} {:.4}±{:.4} at once {:.3} {:.2} min {:?}",
            p.candidates[r.candidate].title(),
            r.fit.value,
            r.fit.error,
            r.pads.fit_at_once.value,
            r.minutes,
            r.pads.bring
        );
    }
    println!("{:?}\nfixed {:?}\n{:?} gap {:.4}", p.totals, p.fixed_order, p.optimality, p.optimality.gap());
    println!("{:?}", p.advice);
    fn show(p: &Plan, s: &JudgedStep, d: usize) {
        println!(
            "{}{} {:.3} reach {:.3} {:?} rival {:?} asides {}",
            " ".repeat(d * 3),
            p.candidates[s.candidate].title(),
            s.fit.value,
            s.reach,
            s.source,
            s.rival.map(|r| (p.candidates[r.0].title(), r.2.value)),
            s.asides.len()
        );
        for b in &s.branches {
            println!(
                "{} if {:?} {:.4}",
                " ".repeat(d * 3),
                b.reasons.iter().map(|r| r.id()).collect::<Vec<_>>(),
                b.probability.value
            );
            if let Some(n) = &b.next {
                show(p, n, d + 1);
            }
        }
    }
    if let Some(f) = &p.first {
        show(&p, f, 0);
    }
}
