//! Logs against their budgets: a million samples drawn in under 16 ms, a log summed up while a person waits.
//! `cargo bench -p liftgate-core --bench telemetry`.
#![allow(clippy::unwrap_used, missing_docs)]

use std::fmt::Write;
use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use liftgate_core::telemetry::drift::{DriftQuestion, DriftTest, drift};
use liftgate_core::telemetry::plot::line;
use liftgate_core::telemetry::summary::summarise;
use liftgate_core::telemetry::{Import, Layout, Limits, Settings, Span};

fn text(rows: u32) -> String {
    let mut text = "Time [s],Voltage [V],Current [A],Rotor [rpm],Controller [°C]\n".to_owned();
    for row in 0..rows {
        let (t, wave) = (f64::from(row) * 0.01, f64::from(row % 701) / 10.0);
        writeln!(
            text,
            "{t:.2},{:.2},{:.1},{:.0},{:.1}",
            50.0 - wave / 100.0,
            40.0 + wave,
            1400.0 - wave,
            30.0 + wave / 2.0
        )
        .unwrap();
    }
    text
}

fn logs(c: &mut Criterion) {
    let text = text(1_000_000);
    let layout = Layout::of(text.as_bytes()).unwrap();
    let map = layout.suggest();
    let read = || {
        let import = Import::new(&layout, &map, Settings::default()).unwrap();
        import.read(&mut text.as_bytes(), &mut |_| true).unwrap()
    };
    let mut group = c.benchmark_group("log");
    group.sample_size(10).throughput(Throughput::Bytes(text.len() as u64));
    group.bench_function("a million rows read", |b| b.iter(read));
    group.finish();
    let log = read();
    c.bench_function("a million samples drawn", |b| b.iter(|| line(black_box(&log), 1, log.span(), 1_233)));
    // What a phone draws while fingers are on it: three channels, a column for each unit of the drawing's width.
    c.bench_function("three channels of a million samples drawn", |b| {
        b.iter(|| [0, 1, 2].map(|channel| line(black_box(&log), channel, log.span(), 360)))
    });
    let window = Span { start_s: 3_000.0, end_s: 3_060.0 };
    c.bench_function("a minute of them drawn", |b| b.iter(|| line(black_box(&log), 1, window, 1_233)));
    c.bench_function("a million rows summed up", |b| {
        b.iter(|| summarise(black_box(&log), &Limits::default()).unwrap())
    });
    let question = DriftQuestion { false_alarm: 0.05, readings: 100, resolution: 0.1 };
    let readings: Vec<f64> = (0..100).map(|i| 20.0 + f64::from(i * 37 % 11) / 10.0).collect();
    c.bench_function("drift, threshold worked out anew", |b| {
        b.iter(|| drift(black_box(&readings), &question).unwrap())
    });
    let test = DriftTest::new(&question).unwrap();
    c.bench_function("drift, a hundred readings", |b| b.iter(|| test.of(black_box(&readings)).unwrap()));
}

criterion_group!(benches, logs);
criterion_main!(benches);
