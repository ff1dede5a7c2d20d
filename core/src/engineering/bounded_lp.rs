//! A small exact linear program: least cost with bounds on every variable and at most two rows tight at once.
//!
//! The ballast question has two pairs of rows (fore and aft, lateral) of which at most one each can be tight, so an optimal basis
//! holds at most two variables between their bounds. All such bases are tried: each fixes the row prices, the prices decide for
//! every other variable whether it sits at its lower or upper bound, and the basis that then satisfies all rows is optimal by
//! complementary slackness. A few hundred bases of a dozen variables take microseconds, cannot cycle, and need no
//! tuning, which is why no general solver is carried to the phone; the tests hold the answers against one.

/// Rows: at least `need[r]`; rows 0 and 1 exclude each other, as do rows 2 and 3.
pub(super) const ROWS: usize = 4;

/// Minimise the sum of `cost[j] v[j]` with `low <= v <= high` and `rows v >= need`.
pub(super) struct Program {
    /// Coefficients by variable, of order one or zero: what is smaller than [`LEAST_COEFFICIENT`] must be zero.
    pub columns: Vec<[f64; ROWS]>,
    pub need: [f64; ROWS],
    pub low: Vec<f64>,
    pub high: Vec<f64>,
    pub cost: Vec<f64>,
}

/// An optimal point, or the point that misses the rows by least.
pub(super) struct Optimum {
    pub values: Vec<f64>,
    /// Sum of what the rows still miss; zero (within rounding) when the program can be met.
    pub missing: f64,
}

/// Costs in order of importance: missing a row goes before anything else. An exact "big M".
#[derive(Clone, Copy)]
struct Price {
    missing: f64,
    cost: f64,
}

impl Price {
    fn sign(self) -> f64 {
        if self.missing.abs() > 1e-10 { self.missing } else { self.cost }
    }
}

/// Smallest coefficient that prices can be told apart with.
pub(super) const LEAST_COEFFICIENT: f64 = 1e-6;

/// Rounding accepted in rows and bounds, relative to figures of order one.
const SLACK: f64 = 1e-9;

impl Program {
    /// The optimum; none only if rounding defeats every basis.
    pub(super) fn solve(&self) -> Option<Optimum> {
        let total = self.columns.len() + ROWS;
        let mut best: Option<(f64, Vec<f64>)> = None;
        let mut try_basis = |rows: &[usize], basis: &[usize]| {
            if let Some(values) = self.point(rows, basis) {
                let violation = self.violation(&values);
                if violation < 1e-6 && best.as_ref().is_none_or(|(v, _)| violation < *v) {
                    best = Some((violation, values));
                }
            }
            best.as_ref().is_some_and(|(v, _)| *v <= SLACK)
        };
        self.try_all(total, &mut try_basis);
        best.map(|(_, values)| Optimum {
            missing: values[self.columns.len()..].iter().sum(),
            values: values[..self.columns.len()].to_vec(),
        })
    }

    fn try_all(&self, total: usize, try_basis: &mut impl FnMut(&[usize], &[usize]) -> bool) -> bool {
        if try_basis(&[], &[]) {
            return true;
        }
        for row in 0..ROWS {
            for j in 0..total {
                if try_basis(&[row], &[j]) {
                    return true;
                }
            }
        }
        for row_x in 0..2 {
            for row_y in 2..ROWS {
                for j in 0..total {
                    for k in j + 1..total {
                        if try_basis(&[row_x, row_y], &[j, k]) {
                            return true;
                        }
                    }
                }
            }
        }
        false
    }

    /// Coefficient of a variable or, beyond them, of the helper that fills what row `j - n` misses.
    fn coefficient(&self, row: usize, j: usize) -> f64 {
        match j.checked_sub(self.columns.len()) {
            None => self.columns[j][row],
            Some(helper) => f64::from(u8::from(helper == row)),
        }
    }

    fn price_of(&self, j: usize) -> Price {
        match self.cost.get(j) {
            Some(cost) => Price { missing: 0.0, cost: *cost },
            None => Price { missing: 1.0, cost: 0.0 },
        }
    }

    fn bounds(&self, j: usize) -> (f64, f64) {
        match self.low.get(j) {
            Some(low) => (*low, self.high[j]),
            None => (0.0, f64::INFINITY),
        }
    }

    /// The point of one basis, if its prices are those of an optimum.
    fn point(&self, rows: &[usize], basis: &[usize]) -> Option<Vec<f64>> {
        let prices = self.row_prices(rows, basis)?;
        if prices.iter().any(|p| p.sign() < -1e-12) {
            return None;
        }
        let total = self.columns.len() + ROWS;
        let mut values = vec![0.0; total];
        for (j, value) in values.iter_mut().enumerate() {
            if basis.contains(&j) {
                continue;
            }
            let mut reduced = self.price_of(j);
            for (row, price) in rows.iter().zip(&prices) {
                reduced.missing -= price.missing * self.coefficient(*row, j);
                reduced.cost -= price.cost * self.coefficient(*row, j);
            }
            let (low, high) = self.bounds(j);
            *value = if reduced.sign() < 0.0 { high } else { low };
            if !value.is_finite() {
                return None;
            }
        }
        self.fill_basis(rows, basis, &mut values)?;
        Some(values)
    }

    fn row_prices(&self, rows: &[usize], basis: &[usize]) -> Option<Vec<Price>> {
        let price = |missing: f64, cost: f64| Price { missing, cost };
        match (rows, basis) {
            ([], []) => Some(vec![]),
            ([r], [j]) => {
                let (a, p) = (self.coefficient(*r, *j), self.price_of(*j));
                (a.abs() > 1e-12).then(|| vec![price(p.missing / a, p.cost / a)])
            }
            ([r, s], [j, k]) => {
                let [[a, b], [c, d]] = self.square(*r, *s, *j, *k);
                let det = determinant(a, b, c, d)?;
                let (p, q) = (self.price_of(*j), self.price_of(*k));
                let first = |p: f64, q: f64| (p * d - q * c) / det;
                let second = |p: f64, q: f64| (q * a - p * b) / det;
                Some(vec![
                    price(first(p.missing, q.missing), first(p.cost, q.cost)),
                    price(second(p.missing, q.missing), second(p.cost, q.cost)),
                ])
            }
            _ => None,
        }
    }

    fn square(&self, r: usize, s: usize, j: usize, k: usize) -> [[f64; 2]; 2] {
        [[self.coefficient(r, j), self.coefficient(r, k)], [self.coefficient(s, j), self.coefficient(s, k)]]
    }

    /// Basic variables from the tight rows, the others being known.
    fn fill_basis(&self, rows: &[usize], basis: &[usize], values: &mut [f64]) -> Option<()> {
        let rest = |row: usize| {
            let used: f64 = values.iter().enumerate().map(|(j, v)| v * self.coefficient(row, j)).sum();
            self.need[row] - used
        };
        match (rows, basis) {
            ([r], [j]) => values[*j] = rest(*r) / self.coefficient(*r, *j),
            ([r, s], [j, k]) => {
                let [[a, b], [c, d]] = self.square(*r, *s, *j, *k);
                let det = determinant(a, b, c, d)?;
                let (p, q) = (rest(*r), rest(*s));
                values[*j] = (p * d - q * b) / det;
                values[*k] = (q * a - p * c) / det;
            }
            _ => {}
        }
        Some(())
    }

    /// Worst violation of any row or bound.
    fn violation(&self, values: &[f64]) -> f64 {
        let mut worst = 0f64;
        for (j, value) in values.iter().enumerate() {
            let (low, high) = self.bounds(j);
            worst = worst.max(low - value).max(value - high);
        }
        for row in 0..ROWS {
            let sum: f64 = values.iter().enumerate().map(|(j, v)| v * self.coefficient(row, j)).sum();
            worst = worst.max(self.need[row] - sum);
        }
        worst
    }
}

fn determinant(a: f64, b: f64, c: f64, d: f64) -> Option<f64> {
    let det = a * d - b * c;
    // Two nearly parallel columns have no point of their own.
    (det.abs() > 1e-13 * (a * d).abs().max((b * c).abs()).max(1e-12)).then_some(det)
}
