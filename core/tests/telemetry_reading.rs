//! Reading logs: whatever a recorder may write, with every fault at its row and column, and nothing sound lost.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

use liftgate_core::telemetry::*;
use proptest::prelude::*;

fn read_with(bytes: &[u8], settings: Settings) -> Result<Recording, TelemetryError> {
    let layout = Layout::of(bytes)?;
    Import::new(&layout, &layout.suggest(), settings)?.read(&mut &bytes[..], &mut |_| true)
}

fn read(text: &str) -> Recording {
    read_with(text.as_bytes(), Settings::default()).unwrap()
}

fn channel<'a>(log: &'a Recording, label: &str) -> &'a Channel {
    log.channels.iter().find(|c| c.mapped.label == label).unwrap_or_else(|| panic!("{label} in {:?}", log.map))
}

const ROWS: [(f64, f64, f64); 5] =
    [(0.0, 50.2, 1.5), (0.1, 48.5, 60.25), (0.2, 48.25, 61.0), (0.3, 48.75, 59.5), (0.4, 49.0, 40.125)];

fn holds_the_rows(log: &Recording) {
    assert_eq!(log.rows.imported, 5);
    assert_eq!(log.faults.total(), 0, "{:?}", log.faults);
    let (volts, amperes) = (channel(log, "Voltage"), channel(log, "Current"));
    for (cell, (t, v, a)) in ROWS.into_iter().enumerate() {
        assert!((log.time_s[cell] - t).abs() < 1e-6, "{:?}", log.time_s);
        assert_eq!((volts.value[cell], amperes.value[cell]), (v as f32, a as f32));
    }
}

/// The same five rows written with this separator, decimal, quote and line end; the time by `time`.
fn write(
    separator: &str,
    decimal: &str,
    quote: &str,
    end: &str,
    header: &str,
    time: impl Fn(f64) -> String,
) -> String {
    let number = |value: f64| format!("{quote}{}{quote}", value.to_string().replace('.', decimal));
    let mut text = format!("{}{end}", header.replace(',', separator));
    for (t, v, a) in ROWS {
        let time = time(t).replace('.', decimal);
        text += &format!("{quote}{time}{quote}{separator}{}{separator}{}{end}", number(v), number(a));
    }
    text
}

#[test]
fn separators_decimals_quotes_and_line_ends() {
    let header = "Time [s],Voltage [V],Current [A]";
    for separator in [",", ";", "\t", "|"] {
        for decimal in [".", ","] {
            for quote in ["", "\""] {
                for end in ["\n", "\r\n", "\r"] {
                    // A comma cannot be both unless it is quoted.
                    if separator == decimal && quote.is_empty() {
                        continue;
                    }
                    let text = write(separator, decimal, quote, end, header, |t| t.to_string());
                    holds_the_rows(&read(&text));
                }
            }
        }
    }
}

#[test]
fn encodings() {
    let text = write(";", ",", "", "\r\n", "Time [s],Voltage [V],Current [A]", |t| t.to_string());
    let marked = [&b"\xEF\xBB\xBF"[..], text.as_bytes()].concat();
    let little: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let big: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    for (bytes, encoding) in [
        (marked, Encoding::Utf8),
        ([&b"\xFF\xFE"[..], &little].concat(), Encoding::Utf16Le),
        ([&b"\xFE\xFF"[..], &big].concat(), Encoding::Utf16Be),
        (little, Encoding::Utf16Le),
        (big, Encoding::Utf16Be),
    ] {
        assert_eq!(Layout::of(&bytes).unwrap().encoding, encoding);
        holds_the_rows(&read_with(&bytes, Settings::default()).unwrap());
    }
    let western = b"Zeit;Temperatur [\xB0C]\n0,0;21,5\n0,1;21,6\n0,2;21,7\n";
    let log = read_with(western, Settings::default()).unwrap();
    assert_eq!(channel(&log, "Temperatur").mapped.unit, LogUnit::Celsius);
}

#[test]
fn ways_to_write_the_time() {
    let clock = |t: f64| format!("23:59:59.{:03}", 900 + (t * 100.0).round() as u32);
    for (header, form, time) in [
        (
            "Time [s],Voltage [V],Current [A]",
            TimeForm::Seconds,
            Box::new(|t: f64| t.to_string()) as Box<dyn Fn(f64) -> String>,
        ),
        ("Time (ms),Voltage (V),Current (A)", TimeForm::Milliseconds, Box::new(|t| (1e3 * t).round().to_string())),
        ("time_us,Voltage_V,Current_A", TimeForm::Microseconds, Box::new(|t| (1e6 * t).round().to_string())),
        (
            "Stamp,Voltage V,Current A",
            TimeForm::DateYearFirst,
            Box::new(|t| format!("2026-03-07T14:03:{:06.3}Z", 22.0 + t)),
        ),
        (
            "Date,Voltage in V,Current in A",
            TimeForm::DateDayFirst,
            Box::new(|t| format!("07.03.2026 14:03:{:06.3}", 22.0 + t)),
        ),
        ("Clock,Voltage [V],Current [A]", TimeForm::Clock, Box::new(|t| format!("14:03:{:06.3}", 22.0 + t))),
    ] {
        let text = write(";", ".", "", "\n", header, time);
        let log = read(&text);
        assert_eq!(log.map.time_form, form, "{header}");
        holds_the_rows(&log);
    }
    let log = read(&write(",", ".", "", "\n", "Clock,Voltage [V],Current [A]", |t| {
        if t < 0.25 { clock(t) } else { format!("00:00:00.{:03}", (t * 100.0).round() as u32) }
    }));
    assert!((log.time_s[3] - 0.13).abs() < 1e-9, "midnight passes: {:?}", log.time_s);
    assert_eq!(log.rows.restarts, 0);
}

#[test]
fn a_preamble_and_a_row_of_units() {
    let text = "Recorder of nobody\nSerial;17\n\nTime;Voltage;Current\ns;V;A\n0;50,2;1,5\n0,1;48,5;60,25\n0,2;48,25;61\n0,3;48,75;59,5\n0,4;49;40,125\n";
    let layout = Layout::of(text.as_bytes()).unwrap();
    assert_eq!(layout.lines_before, 5);
    assert_eq!(layout.headers[1].unit, Some(LogUnit::Volt));
    holds_the_rows(&read(text));
}

#[test]
fn the_same_header_is_known_again_and_another_is_not() {
    let a = Layout::of(b"Time [s],Voltage [V]\n0,1\n1,2\n").unwrap();
    let again = Layout::of(b"time [S];voltage [v]\n5;7,5\n6;8,5\n").unwrap();
    let other_unit = Layout::of(b"Time [s],Voltage [mV]\n0,1\n1,2\n").unwrap();
    let more = Layout::of(b"Time [s],Voltage [V],Current [A]\n0,1,2\n1,2,3\n").unwrap();
    assert_eq!(a.fingerprint, again.fingerprint);
    assert_ne!(a.fingerprint, other_unit.fingerprint);
    assert_ne!(a.fingerprint, more.fingerprint);
}

#[test]
fn faults_have_their_row_and_column_and_the_rest_is_kept() {
    let text = "Time [s],Voltage [V],Current [A]\n0.0,50.1,10\n0.1,oops,11\nx,50.3,12\n0.3,50.4\n0.4,50.5,14,99\n0.5,,15\n0.6,50.7,16\n0.7,50";
    let log = read(text);
    assert_eq!((log.rows.found, log.rows.imported, log.rows.left_out), (8, 6, 2));
    let told: Vec<_> = log.faults.first.iter().map(|f| (f.kind, f.row, f.column)).collect();
    assert_eq!(
        told,
        [
            (FaultKind::NotANumber, 3, Some(2)),
            (FaultKind::NoTime, 4, Some(1)),
            (FaultKind::TooFewFields, 5, None),
            (FaultKind::TooManyFields, 6, None),
            (FaultKind::Torn, 9, None),
        ]
    );
    assert_eq!(log.faults.first[0].to_string(), "row 3, column 2 (Voltage): not a number, left empty: \"oops\"");
    let (volts, amperes) = (channel(&log, "Voltage"), channel(&log, "Current"));
    assert_eq!((volts.whole.count, volts.whole.missing), (4, 2));
    assert_eq!((amperes.whole.count, amperes.whole.missing), (5, 1));
    assert_eq!(amperes.value.iter().filter(|v| !v.is_nan()).copied().sum::<f32>(), 10.0 + 11.0 + 14.0 + 15.0 + 16.0);
}

#[test]
fn the_last_field_without_a_line_end_may_be_torn() {
    let log = read("Time [s],Voltage [V],Current [A]\n0,50,10\n1,50,20\n2,50,3");
    assert_eq!((log.rows.imported, log.faults.count(FaultKind::Torn)), (3, 1));
    assert!(channel(&log, "Current").value[2].is_nan());
    assert_eq!(channel(&log, "Voltage").value[2], 50.0);
}

#[test]
fn a_quote_that_never_closes_costs_one_row() {
    let mut text = "Time [s],Voltage [V],Current [A]\n0,\"50\n".to_owned();
    for row in 1..2_000 {
        text += &format!("{row},50.5,{row}\n");
    }
    let log = read(&text);
    assert_eq!((log.rows.imported, log.faults.count(FaultKind::OpenQuote)), (1_999, 1));
    assert_eq!(log.faults.first[0].row, 2);
}

#[test]
fn quoted_fields_may_hold_separators_and_line_ends() {
    let text = "Note,Time [s],Voltage [V]\n\"a, \"\"b\"\"\nc\",0,50\nplain,1,51\n\"x\",2,52\n\"y\",3,oops\n";
    let log = read(text);
    assert_eq!((log.rows.imported, channel(&log, "Voltage").whole.count), (4, 3));
    assert_eq!(log.faults.first[0].row, 6, "rows are the file's lines");
}

#[test]
fn restarts_repeats_wrong_order_and_jumps() {
    let text = "Time [s],Voltage [V]\n0.0,1\n0.1,2\n0.1,2\n0.2,3\n0.15,4\n0.3,5\n9000.0,6\n0.4,7\n0.5,8\nTime [s],Voltage [V]\n0.0,9\n0.1,10\n";
    let log = read(text);
    let rows = log.rows;
    assert_eq!((rows.repeated, rows.out_of_order, rows.restarts, rows.left_out, rows.headers_again), (1, 1, 1, 1, 1));
    assert_eq!(log.faults.first[0].kind, FaultKind::TimeJump);
    assert_eq!(log.faults.first[0].row, 8);
    assert_eq!(channel(&log, "Voltage").value, [1.0, 2.0, 3.0, 4.0, 5.0, 7.0, 8.0, 9.0, 10.0]);
    assert!(log.time_s.windows(2).all(|w| w[1] >= w[0]), "{:?}", log.time_s);
    assert_eq!(log.breaks, [7]);
}

#[test]
fn a_clock_of_whole_seconds_is_spread() {
    let mut text = "Clock,Voltage [V]\n".to_owned();
    for row in 0..100 {
        text += &format!("10:00:{:02},{row}\n", row / 10);
    }
    let log = read(&text);
    for (row, time_s) in log.time_s.iter().enumerate() {
        assert!((time_s - row as f64 / 10.0).abs() < 1e-9, "{row} {time_s}");
    }
    assert!((log.step_s - 0.1).abs() < 1e-9);
}

#[test]
fn gaps_are_found() {
    let mut text = "Time [ms],Voltage [V]\n".to_owned();
    for row in (0..100).chain(200..300) {
        text += &format!("{},50\n", row * 20);
    }
    let log = read(&text);
    let gaps: Vec<Span> = log.gaps().collect();
    assert_eq!(gaps.len(), 1);
    assert!((gaps[0].start_s - 1.98).abs() < 1e-9 && (gaps[0].end_s - 4.0).abs() < 1e-9);
}

#[test]
fn units_are_carried_over() {
    let text = "t [s],U [mV],I [mA],Motor [°F],Body [K],Rotor [1/s]\n0,50000,1500,212,300.15,20\n1,50000,1500,32,300.15,20\n";
    let layout = Layout::of(text.as_bytes()).unwrap();
    let mut map = layout.suggest();
    let quantities: Vec<_> = map.columns.iter().map(|c| c.quantity).collect();
    assert!(!quantities.contains(&Quantity::Other), "{map:?}");
    map.columns = [
        (1, Quantity::PackVoltage, LogUnit::Millivolt, 1.0),
        (2, Quantity::PackCurrent, LogUnit::Milliampere, 1.0),
        (3, Quantity::Temperature, LogUnit::Fahrenheit, 1.0),
        (4, Quantity::Temperature, LogUnit::Kelvin, 1.0),
        // A motor at 1200 rpm through a gear of ten to one.
        (5, Quantity::HeadSpeed, LogUnit::RevolutionsPerSecond, 0.1),
    ]
    .map(|(column, quantity, unit, ratio)| MappedColumn {
        column,
        label: column.to_string(),
        quantity,
        unit,
        place: None,
        ratio,
    })
    .to_vec();
    let log =
        Import::new(&layout, &map, Settings::default()).unwrap().read(&mut text.as_bytes(), &mut |_| true).unwrap();
    let first: Vec<f32> = log.channels.iter().map(|c| c.value[0]).collect();
    for (found, expected) in first.iter().zip([50.0, 1.5, 100.0, 27.0, 120.0]) {
        assert!((found - expected).abs() < 1e-4, "{first:?}");
    }
    assert!((log.channels[2].value[1]).abs() < 1e-4);
}

#[test]
fn what_is_no_table_says_so() {
    for (bytes, part) in [
        (&b""[..], "empty"),
        (b"\0\0\0\0\0\0\0\0\0\0", "empty"),
        (b"Dear all,\nthis is a letter, not a log.\nYours\n", "Dear all"),
        (b"one\n1\n2\n3\n", "one"),
    ] {
        let error = Layout::of(bytes).unwrap_err().to_string();
        assert!(error.contains(part), "{error}");
    }
    let layout = Layout::of(b"a,b\n1,2\n2,3\n").unwrap();
    let map = ColumnMap { time_column: Some(7), ..layout.suggest() };
    assert!(matches!(Import::new(&layout, &map, Settings::default()), Err(TelemetryError::Map { .. })));
    // The column that was named as time holds none.
    let text = "Time [s],Note,Voltage [V]\n1,a,2\n2,b,3\n";
    let layout = Layout::of(text.as_bytes()).unwrap();
    let map = ColumnMap { time_column: Some(1), ..layout.suggest() };
    let error = Import::new(&layout, &map, Settings::default()).unwrap().read(&mut text.as_bytes(), &mut |_| true);
    assert!(error.unwrap_err().to_string().contains("row 2, column 2 (Note)"));
}

#[test]
fn it_can_be_stopped_and_tells_how_far_it_is() {
    let mut text = "Time [s],Voltage [V]\n".to_owned();
    for row in 0..100_000 {
        text += &format!("{row},50.5\n");
    }
    let layout = Layout::of(text.as_bytes()).unwrap();
    let import = || Import::new(&layout, &layout.suggest(), Settings::default()).unwrap();
    let mut seen = Vec::new();
    import()
        .read(&mut text.as_bytes(), &mut |p| {
            seen.push(p.bytes);
            true
        })
        .unwrap();
    assert!(seen.len() >= 4 && seen.windows(2).all(|w| w[1] >= w[0]));
    assert_eq!(import().read(&mut text.as_bytes(), &mut |p| p.rows < 1_000).unwrap_err(), TelemetryError::Stopped);
}

#[test]
fn two_hundred_columns_of_which_six_are_read() {
    let header: Vec<String> = (0..200).map(|c| format!("C{c}")).collect();
    let mut text = header.join(",") + "\n";
    for row in 0..300 {
        let fields: Vec<String> =
            (0..200).map(|c| if c == 0 { row.to_string() } else { format!("{}.5", row * c) }).collect();
        text += &(fields.join(",") + "\n");
    }
    let layout = Layout::of(text.as_bytes()).unwrap();
    assert_eq!(layout.headers.len(), 200);
    let columns = [3_u32, 50, 51, 120, 198, 199];
    let map = ColumnMap {
        fingerprint: layout.fingerprint.clone(),
        time_column: Some(0),
        time_form: TimeForm::Seconds,
        columns: columns
            .iter()
            .map(|c| MappedColumn {
                column: *c,
                label: format!("C{c}"),
                quantity: Quantity::Other,
                unit: LogUnit::Plain,
                place: None,
                ratio: 1.0,
            })
            .collect(),
    };
    let log =
        Import::new(&layout, &map, Settings::default()).unwrap().read(&mut text.as_bytes(), &mut |_| true).unwrap();
    assert_eq!((log.rows.imported, log.faults.total()), (300, 0));
    for (channel, column) in log.channels.iter().zip(columns) {
        assert_eq!(channel.value[7], (7 * column) as f32 + 0.5);
    }
}

#[test]
fn a_file_larger_than_what_may_be_kept_is_thinned_and_loses_no_peak() {
    let mut text = "Time [s],Voltage [V],Current [A]\n".to_owned();
    for row in 0..200_000_u32 {
        let spike = if row == 123_457 { 999.0 } else { f64::from(row % 97) };
        text += &format!("{:.2},{},{spike}\n", f64::from(row) * 0.01, 50 - row % 3);
    }
    let whole = read(&text);
    let thin = read_with(text.as_bytes(), Settings { kept_bytes: 64 * 1024, file_bytes: None }).unwrap();
    assert!(thin.kept_bytes() <= 64 * 1024 && thin.rows_per_cell > 1, "{} {}", thin.kept_bytes(), thin.rows_per_cell);
    assert_eq!(thin.rows.imported, 200_000);
    for (a, b) in whole.channels.iter().zip(&thin.channels) {
        assert_eq!(a.whole, b.whole, "statistics are of every row");
        let greatest = b.greatest().iter().copied().fold(f32::NAN, f32::max);
        assert_eq!(f64::from(greatest), a.whole.greatest);
        let mean = b.value.iter().map(|v| f64::from(*v)).sum::<f64>() / b.value.len() as f64;
        assert!((mean / a.whole.mean - 1.0).abs() < 5e-3);
    }
    assert!((thin.span().end_s - whole.span().end_s).abs() < 0.01 * f64::from(thin.rows_per_cell));
}

/// Rows as a recorder may garble them.
fn garbled() -> impl Strategy<Value = Vec<u8>> {
    let field = prop_oneof![
        6 => (-1000i32..1000, 0u8..100).prop_map(|(a, b)| format!("{a}.{b}")),
        1 => Just(String::new()),
        1 => "[a-z\"]{0,6}",
        1 => Just("\"1,5\"".to_owned()),
        1 => Just("12:03:04.5".to_owned()),
    ];
    let row = (proptest::collection::vec(field, 0..6), prop_oneof![Just("\n"), Just("\r\n"), Just("\r"), Just("")]);
    let rows = proptest::collection::vec(row, 0..60);
    let noise = proptest::collection::vec(any::<u8>(), 0..40);
    (rows, noise, any::<bool>(), prop_oneof![Just(","), Just(";"), Just("\t")]).prop_map(
        |(rows, noise, header, sep)| {
            let mut bytes = Vec::new();
            if header {
                bytes.extend(["Time [s]", "Voltage [V]", "Current [A]", "Temp [°C]"].join(sep).into_bytes());
                bytes.push(b'\n');
            }
            for (index, (fields, end)) in rows.iter().enumerate() {
                bytes.extend(format!("{index}{sep}").bytes());
                bytes.extend(fields.join(sep).bytes());
                bytes.extend(end.bytes());
                if index == 20 {
                    bytes.extend(&noise);
                }
            }
            bytes
        },
    )
}

/// Gives its bytes in pieces, as a stream may.
struct Pieces<'a>(&'a [u8], usize);

impl std::io::Read for Pieces<'_> {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        let length = self.0.len().min(self.1).min(into.len());
        into[..length].copy_from_slice(&self.0[..length]);
        self.0 = &self.0[length..];
        Ok(length)
    }
}

fn utf16(bytes: &[u8]) -> Vec<u8> {
    [0xFF, 0xFE].into_iter().chain(bytes.iter().flat_map(|byte| [*byte, 0])).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn every_row_is_accounted_for(bytes in garbled()) {
        if let Ok(log) = read_with(&bytes, Settings::default()) {
            let rows = log.rows;
            prop_assert_eq!(rows.found, rows.imported + rows.left_out + rows.repeated);
            prop_assert_eq!(log.time_s.len() as u64, rows.imported);
            prop_assert!(log.time_s.windows(2).all(|w| w[0] <= w[1]));
            for channel in &log.channels {
                prop_assert_eq!(channel.whole.count + channel.whole.missing, rows.imported);
                prop_assert_eq!(channel.value.len(), log.time_s.len());
            }
        }
    }

    /// Each step opens the file anew where the last one stopped, as the app does between two touches.
    #[test]
    fn steps_change_nothing(bytes in garbled(), wide in any::<bool>(), step in 1_u64..400, piece in 1usize..300) {
        let bytes = if wide { utf16(&bytes) } else { bytes };
        let Ok(layout) = Layout::of(&bytes) else { return Ok(()) };
        let Ok(import) = Import::new(&layout, &layout.suggest(), Settings::default()) else { return Ok(()) };
        let whole = read_with(&bytes, Settings::default());
        let mut importing = import.begin();
        loop {
            let at = importing.progress().bytes;
            let more = importing.go_on(&mut Pieces(&bytes[at as usize..], piece), step).unwrap();
            prop_assert!(!more || importing.progress().bytes >= at + step);
            if more != Importing::MORE {
                break;
            }
        }
        prop_assert_eq!(importing.progress().bytes, bytes.len() as u64);
        match (whole, importing.finish()) {
            (Ok(a), Ok(b)) => {
                prop_assert_eq!((a.rows, a.faults, a.bytes), (b.rows, b.faults, b.bytes));
                prop_assert_eq!((a.time_s, a.breaks), (b.time_s, b.breaks));
            }
            (a, b) => prop_assert_eq!(a.err(), b.err()),
        }
    }

    #[test]
    fn pieces_change_nothing(bytes in garbled(), piece in 1usize..50) {
        let Ok(layout) = Layout::of(&bytes) else { return Ok(()) };
        let Ok(import) = Import::new(&layout, &layout.suggest(), Settings::default()) else { return Ok(()) };
        let whole = read_with(&bytes, Settings::default());
        let pieces = import.read(&mut Pieces(&bytes, piece), &mut |_| true);
        match (whole, pieces) {
            (Ok(a), Ok(b)) => {
                prop_assert_eq!(a.rows, b.rows);
                prop_assert_eq!(a.faults, b.faults);
                prop_assert_eq!(a.time_s, b.time_s);
            }
            (a, b) => prop_assert_eq!(a.err(), b.err()),
        }
    }

    // The encoding changes nothing, however long the file is against the buffers.
    #[test]
    fn utf_16_reads_as_utf_8(rows in 3usize..9_000, piece in 1usize..70_000, big: bool) {
        let text: String = std::iter::once("Time [s];Voltage [V];Temp [°C]\n".to_owned())
            .chain((0..rows).map(|row| format!("{row};{},5;2{}\n", row % 61, row % 7)))
            .collect();
        let units = text.encode_utf16().flat_map(|unit| if big { unit.to_be_bytes() } else { unit.to_le_bytes() });
        let bytes: Vec<u8> = (if big { [0xFE, 0xFF] } else { [0xFF, 0xFE] }).into_iter().chain(units).collect();
        let layout = Layout::of(&bytes).unwrap();
        let import = Import::new(&layout, &layout.suggest(), Settings::default()).unwrap();
        let wide = import.read(&mut Pieces(&bytes, piece), &mut |_| true).unwrap();
        let plain = read(&text);
        prop_assert_eq!(wide.rows, plain.rows);
        prop_assert_eq!(wide.channels, plain.channels);
    }

    #[test]
    fn any_bytes_are_read_or_refused(bytes: Vec<u8>) {
        let _ = read_with(&bytes, Settings::default());
    }

    // What is written is read back to the last bit that is kept.
    #[test]
    fn written_and_read_back(values in proptest::collection::vec((-1e6f32..1e6, -1e3f32..1e3), 3..80)) {
        let mut text = "Time [s];Voltage [V];Current [A]\n".to_owned();
        for (row, (v, a)) in values.iter().enumerate() {
            text += &format!("{row};{v};{a}\n");
        }
        let log = read(&text);
        prop_assert_eq!(log.rows.imported + log.rows.repeated, values.len() as u64);
        for (cell, (v, a)) in values.iter().enumerate() {
            prop_assert_eq!(channel(&log, "Voltage").value[cell], *v);
            prop_assert_eq!(channel(&log, "Current").value[cell], *a);
        }
    }
}
