//! What the fuzz targets hold of any bytes, held of a few thousand changed valid inputs with each run of the tests: the very same functions,
//! fed from numbers without a pattern that are the same every time. `HOSTILE_ROUNDS` multiplies how many.

#![allow(clippy::unwrap_used)]

#[path = "../fuzz/src/lib.rs"]
mod hostile;

use std::panic::{AssertUnwindSafe, catch_unwind};

/// The longest input, bytes: what is left of it when it is read decides nothing any more.
const LONGEST: u64 = 600;

/// The generator SplitMix64 (Steele, Lea and Flood 2014, "Fast Splittable Pseudorandom Number Generators").
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// Input by its number. Small bytes are as likely as all others together: they choose among few things.
fn input(number: u64) -> Vec<u8> {
    let mut state = number.wrapping_mul(0x5851_F42D_4C95_7F2D);
    let length = next(&mut state) % LONGEST;
    (0..length)
        .map(|_| {
            let drawn = next(&mut state);
            if drawn & 1 == 0 { (drawn >> 8) as u8 } else { (drawn >> 8) as u8 % 12 }
        })
        .collect()
}

/// Feeds so many inputs to what holds of any, and names the first that it does not hold of. One in twenty of them at the least is taken in,
/// and one in twenty is refused: else the walk stays before one of its doors.
#[allow(clippy::print_stdout)] // what was tried
fn hold(rounds: u64, of_any: fn(&[u8]) -> bool) {
    let times = std::env::var("HOSTILE_ROUNDS").ok().and_then(|times| times.parse().ok()).unwrap_or(1);
    let mut taken = 0;
    for number in 0..rounds * times {
        let input = input(number);
        match catch_unwind(AssertUnwindSafe(|| of_any(&input))) {
            Ok(was_taken) => taken += u64::from(was_taken),
            Err(panic) => {
                let said = panic.downcast_ref::<String>().cloned();
                let said = said.or_else(|| panic.downcast_ref::<&str>().map(|said| (*said).to_owned()));
                panic!("input {number}: {}", said.unwrap_or_default());
            }
        }
    }
    println!("{taken} of {} inputs were taken in", rounds * times);
    let few = rounds * times / 20;
    assert!((few..=rounds * times - few).contains(&taken), "{taken} of {} were taken in", rounds * times);
}

#[test]
fn a_plan_is_read_or_refused_with_its_places() {
    hold(2_000, hostile::plan);
}

#[test]
fn a_photo_is_shown_small_or_refused() {
    hold(2_000, hostile::photo);
}

#[test]
fn a_stored_entry_is_read_or_refused_and_folded_whatever_it_says() {
    hold(800, hostile::entry);
}

#[test]
fn a_backup_is_brought_in_or_refused() {
    hold(150, hostile::backup);
}

#[test]
fn a_damaged_journal_opens_or_is_searched_or_refused() {
    hold(100, hostile::damaged);
}

/// Found by the walk over damaged journals: a row of the last place that there can be, whose digest closes over it. The search took its word
/// for it and began to make a row for each place before it; one of the first place of all broke it off.
#[test]
fn a_row_that_proves_itself_makes_no_rows_of_places_that_the_file_has_no_room_for() {
    let without = hostile::entries_with_a_row_at(0);
    for place in [i64::MIN, -1, 1_000_000, i64::MAX - 1, i64::MAX] {
        assert_eq!(hostile::entries_with_a_row_at(place), without, "{place}");
    }
}

/// Found by the same walk: a file that ends within a page. The search reckoned with pages as long as what is left of the last one, and where
/// that is a hundred bytes, with less than nothing.
#[test]
fn a_file_that_ends_within_a_page_is_searched_to_its_end() {
    for thousandth in 500..560 {
        let share = f64::from(thousandth) / 1_000.0;
        assert!(hostile::is_gone_on_with_up_to(share), "{share} of it");
    }
}

/// Found by the walk over backups: an entry with another one's name in a chain that closes. It was refused as a failure of the storage, in
/// SQLite's words, and not as what it is: a line of the file that is wrong.
#[test]
fn an_entry_that_no_journal_takes_is_named_by_its_line() {
    let line = "line 4 of 'entries.jsonl'";
    let twice =
        hostile::refusal_with_last(|row| row.id = 0x0190_0000_0000_7000_8000_0000_0000_2328_u128.to_be_bytes());
    assert!(twice.contains(line), "{twice}");
    let nothing = hostile::refusal_with_last(|row| {
        row.kind = "withdrawn".to_owned();
        row.body =
            r#"{"kind":"withdrawn","entry":"00000000-0000-0000-0000-000000000001","reason":"a slip"}"#.to_owned();
        row.withdraws = Some(1_u128.to_be_bytes());
    });
    assert!(nothing.contains(line), "{nothing}");
}
