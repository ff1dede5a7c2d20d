//! Reads a log, works out the statistics that `tests/throughput.py` asks polars for, and prints them with time and peak memory.
//!
//! `cargo run --release -p liftgate-core --example telemetry_throughput -- FILE [KEPT_MEBIBYTES]`; FILE may be `endless:GIBIBYTES` for rows that are
//! made up while they are read.
#![allow(clippy::print_stdout, clippy::unwrap_used)]

use std::io::Read;
use std::time::Instant;

use liftgate_core::telemetry::{Import, Layout, Quantity, Recording, Settings, Span};

fn main() {
    let mut arguments = std::env::args().skip(1);
    let path = arguments.next().expect("a file");
    let kept_bytes = arguments.next().map_or(Settings::default().kept_bytes, |m| m.parse::<usize>().unwrap() << 20);
    let begun = Instant::now();
    let (head, file_bytes) = match path.strip_prefix("endless:") {
        Some(_) => (Endless::new(1 << 17).head(), None),
        None => {
            let file = std::fs::File::open(&path).unwrap();
            let bytes = file.metadata().unwrap().len();
            let mut head = Vec::new();
            file.take(Layout::HEAD_BYTES as u64).read_to_end(&mut head).unwrap();
            (head, Some(bytes))
        }
    };
    let layout = Layout::of(&head).unwrap();
    let map = layout.suggest();
    let import = Import::new(&layout, &map, Settings { kept_bytes, file_bytes }).unwrap();
    let log = match path.strip_prefix("endless:") {
        Some(gibibytes) => {
            import.read(&mut Endless::new(gibibytes.parse::<u64>().unwrap() << 30), &mut |_| true).unwrap()
        }
        None => import.read(&mut std::fs::File::open(&path).unwrap(), &mut |_| true).unwrap(),
    };
    let read_s = begun.elapsed().as_secs_f64();
    let (charge, energy, over_s) = integrals(&log);
    let total_s = begun.elapsed().as_secs_f64();
    let columns: Vec<String> = log
        .channels
        .iter()
        .map(|c| {
            let w = c.whole;
            format!(
                "\"{}\":{{\"count\":{},\"mean\":{:?},\"sd\":{:?},\"least\":{:?},\"greatest\":{:?}}}",
                c.mapped.label, w.count, w.mean, w.sd, w.least, w.greatest
            )
        })
        .collect();
    println!(
        "{{\"seconds\":{total_s:.4},\"read_seconds\":{read_s:.4},\"peak_kib\":{},\"kept_bytes\":{},\"bytes\":{},\"rows\":{},\
         \"rows_per_cell\":{},\"charge_as\":{charge:?},\"energy_ws\":{energy:?},\"over_s\":{over_s:?},\"columns\":{{{}}}}}",
        peak_kib(),
        log.kept_bytes(),
        log.bytes,
        log.rows.imported,
        log.rows_per_cell,
        columns.join(",")
    );
}

/// Charge, energy and the time over 60 deg C, by straight lines from row to row.
fn integrals(log: &Recording) -> (f64, f64, f64) {
    let whole: Span = log.span();
    let get = |quantity| log.channel(quantity);
    let (Some(a), Some(v)) = (get(Quantity::PackCurrent), get(Quantity::PackVoltage)) else { return (0.0, 0.0, 0.0) };
    let charge = log.integral(a, whole).0;
    let energy = log.integral_of_product(a, v, whole).0;
    let over = get(Quantity::Temperature).map_or(0.0, |c| log.time_past(c, whole, 60.0, true));
    (charge, energy, over)
}

/// The most memory that this process has held, from the system's own account.
fn peak_kib() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM"));
    line.and_then(|line| line.split_whitespace().nth(1)).and_then(|kib| kib.parse().ok()).unwrap_or(0)
}

/// Rows of a made-up log, as long as is wanted, that are never anywhere at once.
struct Endless {
    left: u64,
    row: u64,
    waiting: Vec<u8>,
}

impl Endless {
    fn new(bytes: u64) -> Self {
        Self {
            left: bytes,
            row: 0,
            waiting: b"Time [s],Voltage [V],Current [A],Rotor [rpm],Controller [\xC2\xB0C]\n".to_vec(),
        }
    }

    fn head(mut self) -> Vec<u8> {
        let mut head = Vec::new();
        self.read_to_end(&mut head).unwrap();
        head
    }
}

impl Read for Endless {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        use std::io::Write;
        while self.waiting.len() < into.len() && self.left > 0 {
            let start = self.waiting.len();
            for _ in 0..1_000 {
                let (t, wave) = (self.row as f64 * 0.01, (self.row % 700) as f64 / 10.0);
                writeln!(
                    self.waiting,
                    "{t:.2},{:.2},{:.1},{:.0},{:.1}",
                    50.0 - wave / 100.0,
                    40.0 + wave,
                    1400.0,
                    30.0 + wave / 2.0
                )?;
                self.row += 1;
            }
            self.left = self.left.saturating_sub((self.waiting.len() - start) as u64);
        }
        let length = into.len().min(self.waiting.len());
        into[..length].copy_from_slice(&self.waiting[..length]);
        self.waiting.drain(..length);
        Ok(length)
    }
}
