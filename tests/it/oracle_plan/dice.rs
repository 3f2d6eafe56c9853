//! Numbers that look random and are the same in every run: `SplitMix64` (Steele, Lea and Flood, OOPSLA 2014).

pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Uniform in [0, 1). The upper half of a roll is fine enough for every test here.
    pub(crate) fn unit(&mut self) -> f64 {
        f64::from(u32::try_from(self.roll() >> 32).unwrap()) / 2_f64.powi(32)
    }

    pub(crate) fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.unit()
    }

    /// Uniform in 0..count.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.roll() % u64::try_from(count).unwrap()).unwrap()
    }

    pub(crate) fn one_of<T: Copy>(&mut self, values: &[T]) -> T {
        values[self.below(values.len())]
    }

    /// Standard normal (Box and Muller 1958).
    pub(crate) fn normal(&mut self) -> f64 {
        let (radius, turn) = (1.0 - self.unit(), self.unit());
        (-2.0 * radius.ln()).sqrt() * (std::f64::consts::TAU * turn).cos()
    }
}
