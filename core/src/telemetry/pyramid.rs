//! Least and greatest of every so many values, worked out once when a log was read: what is drawn from a million samples then looks at
//! a few thousand numbers, and still finds the one sample that stands out.

/// Values in a block.
const BLOCK: usize = 64;

/// Least and greatest of each block of a channel's values; NaN where a block has none.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Pyramid {
    least: Vec<f32>,
    greatest: Vec<f32>,
}

impl Pyramid {
    /// Of a channel's least and greatest values, cell by cell.
    pub(super) fn of(least: &[f32], greatest: &[f32]) -> Pyramid {
        let fold = |values: &[f32], of: fn(f32, f32) -> f32| -> Vec<f32> {
            values.chunks(BLOCK).map(|block| block.iter().copied().fold(f32::NAN, of)).collect()
        };
        Pyramid { least: fold(least, f32::min), greatest: fold(greatest, f32::max) }
    }

    /// Place of the least of `values` in a range, the first of equals.
    pub(super) fn least(&self, values: &[f32], range: std::ops::Range<usize>) -> Option<usize> {
        find(values, &self.least, range, |a, b| a < b)
    }

    /// Place of the greatest.
    pub(super) fn greatest(&self, values: &[f32], range: std::ops::Range<usize>) -> Option<usize> {
        find(values, &self.greatest, range, |a, b| a > b)
    }
}

/// The whole blocks are looked at as blocks, the values before and after them one by one; then the block that won, value by value.
fn find(
    values: &[f32],
    blocks: &[f32],
    range: std::ops::Range<usize>,
    before: impl Fn(f32, f32) -> bool + Copy,
) -> Option<usize> {
    let (first, end) = (range.start.div_ceil(BLOCK), range.end / BLOCK);
    if first >= end {
        return place(values, range, before);
    }
    let head = place(values, range.start..first * BLOCK, before);
    let tail = place(values, end * BLOCK..range.end, before);
    let block = place(blocks, first..end, before);
    let middle =
        block.and_then(|block| place(values, block * BLOCK..((block + 1) * BLOCK).min(values.len()), before));
    // In the order of place, so that the first of equals stays.
    let candidates = [head, middle, tail].into_iter().flatten();
    candidates.reduce(|best, at| if before(values[at], values[best]) { at } else { best })
}

fn place(values: &[f32], range: std::ops::Range<usize>, before: impl Fn(f32, f32) -> bool + Copy) -> Option<usize> {
    let start = range.start;
    extreme(&values[range], before).map(|at| start + at)
}

/// Place of the value that is before all others; the first of equals. Eight lanes, so that the compiler can use the machine's width.
fn extreme(values: &[f32], before: impl Fn(f32, f32) -> bool + Copy) -> Option<usize> {
    let mut lanes = [f32::NAN; 8];
    let mut chunks = values.chunks_exact(8);
    for chunk in &mut chunks {
        for (lane, value) in lanes.iter_mut().zip(chunk) {
            // Not "is the lane before": a lane that is no number yet gives way to any number.
            *lane = if before(*value, *lane) || lane.is_nan() { *value } else { *lane };
        }
    }
    let mut best = f32::NAN;
    for value in lanes.iter().chain(chunks.remainder()) {
        if before(*value, best) || best.is_nan() {
            best = *value;
        }
    }
    if best.is_nan() { None } else { values.iter().position(|value| *value == best) }
}
