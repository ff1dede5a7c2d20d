//! The disk fails, or is full, at each call that everything a person can do makes: nobody is ever told "recorded" of what is not there.

use std::collections::BTreeMap;
use std::path::Path;

use liftgate_core::app::AppError;
use liftgate_core::journal::JournalError;
use liftgate_core::record::{Author, Body};
use liftgate_tests::Spread;

use super::disk::{Files, Way};
use super::hand::Hand;
use super::scene::{Act, Scene, entries_in, in_memory, lay, said};
use super::watch::{Call, Failing};
use super::{asked_for, vfs, wanted_acts, watch};

type Said = Vec<(Author, Body)>;

/// An act that nothing went wrong with.
struct Well {
    begun: Files,
    before: Option<Said>,
    after: Option<Said>,
    /// What was handed over, and what is on the page of a damaged journal.
    shown: Option<String>,
    saved: Option<Vec<u8>>,
    calls: u64,
    kinds: BTreeMap<Call, u64>,
}

fn standing(folder: &Path) -> Option<Said> {
    entries_in(folder).map(|entries| said(&entries))
}

/// The page of a damaged journal; none of another one.
fn damage_page(scene: &Scene) -> Option<String> {
    let screen = scene.hand.as_ref()?.screen().ok()?;
    (screen.name == "damaged").then(|| format!("{:?}", screen.blocks))
}

fn well(act: &Act) -> Well {
    let (begun, now) = (act.begins)();
    let mut scene = Scene::of(&begun, &now);
    let folder = scene.folder.path().to_owned();
    watch::begin(&folder);
    (act.way)(&mut scene).unwrap_or_else(|error| panic!("the way to '{}': {error}", act.name));
    let before = standing(&folder);
    watch::count_anew(None);
    let kinds_before = watch::kinds();
    (act.does)(&mut scene).unwrap_or_else(|error| panic!("'{}': {error}", act.name));
    let calls = watch::counted().0;
    let mut kinds = watch::kinds();
    kinds_before.iter().for_each(|(call, many)| *kinds.entry(*call).or_default() -= many);
    let shown = damage_page(&scene);
    drop(scene.hand.take());
    watch::end();
    Well { begun, before, after: standing(&folder), shown, saved: scene.saved, calls, kinds }
}

/// What was tried, and what came of it.
#[derive(Default)]
struct Count {
    tried: u64,
    told_well: u64,
    told_failed: u64,
    there_all_the_same: u64,
    went_on: u64,
    begun_anew: u64,
    between_two: u64,
    wrong: Vec<String>,
}

impl Count {
    fn hold(&mut self, holds: bool, told: &str, what: &str) {
        if !holds {
            self.wrong.push(format!("{told}: {what}"));
        }
    }
}

fn fail(act: &Act, well: &Well, at: u64, failing: Failing, count: &mut Count) {
    let told = format!("'{}', call {at} of {} fails, {failing:?}", act.name, well.calls);
    let (begun, now) = (act.begins)();
    let mut scene = Scene::of(&begun, &now);
    let folder = scene.folder.path().to_owned();
    watch::begin(&folder);
    (act.way)(&mut scene).unwrap_or_else(|error| panic!("{told}: the way to it: {error}"));
    watch::count_anew(Some((at, failing)));
    let done = (act.does)(&mut scene);
    watch::count_anew(None);
    let failed = watch::counted().1;
    if failed == 0 {
        drop(scene.hand.take());
        watch::end();
        return;
    }
    count.tried += 1;
    let told = format!("{told}: {:?}", watch::first_failed());
    let here = standing(&folder);
    let dropped = watch::disk_now(&well.begun).after_cut(Way::Dropped, &mut Spread::from(at));
    let scratch = in_memory();
    lay(&dropped, scratch.path());
    let on_disk = standing(scratch.path());
    if done.is_ok() {
        count.told_well += 1;
        count.hold(here == well.after, &told, "told as done, and it is not there");
        count.hold(on_disk == well.after, &told, "told as done, and a power cut would take it");
        count.hold(scene.saved == well.saved, &told, "told as saved, and other bytes");
        count.hold(damage_page(&scene) == well.shown, &told, "another damage is shown than there is");
    } else {
        count.told_failed += 1;
        count.hold(here == well.before || here == well.after, &told, "half there");
        let many = [&well.before, &on_disk, &well.after].map(|said| said.as_ref().map(Vec::len));
        let cut = format!("half there after a power cut: {many:?} entries before, found, after");
        count.hold(on_disk == well.before || on_disk == well.after, &told, &cut);
        count.there_all_the_same += u64::from(here == well.after && well.after != well.before);
    }
    // What was told as failed may be gone again: nobody was told that it is there.
    let known = if done.is_ok() { &well.after } else { &well.before };
    told_as_between_two(&scene, &done, &told, count);
    goes_on(scene, known.as_ref().filter(|_| here.is_some()), &well.after, &told, count);
    watch::end();
}

/// A change of place that the next start will end is told as such. Told so is also one that is ended or taken back already where the app
/// could open neither record then: it says that both are whole and that it has to be begun anew, and goes on with none.
fn told_as_between_two(scene: &Scene, done: &Result<(), AppError>, told: &str, count: &mut Count) {
    let next = scene.journal().with_file_name(format!("{}-next", scene.journal().file_name().unwrap().display()));
    let is_told = matches!(done, Err(AppError::Journal { source: JournalError::BetweenTwo, .. }));
    count.between_two += u64::from(is_told);
    // Who cannot look into the folder does not know.
    if watch::first_failed() != Some(Call::Look) {
        count.hold(is_told || !next.exists(), told, "another journal waits, and nobody is told");
    }
    if is_told && !next.exists() {
        let goes_on = scene.hand.as_ref().is_some_and(|hand| hand.phone.pilot().is_ok());
        count.hold(!goes_on, told, "told as between two journals, none waits, and the app goes on");
    }
}

/// The app goes on in the same process where it can, and always once it is begun anew.
fn goes_on(mut scene: Scene, known: Option<&Said>, after: &Option<Said>, told: &str, count: &mut Count) {
    const CALL: &str = "199";
    let folder = scene.folder.path().to_owned();
    let is_shown_damaged = damage_page(&scene).is_some();
    let mut recorded = false;
    if let Some(hand) = scene.hand.as_mut().filter(|_| known.is_some() && !is_shown_damaged) {
        recorded = hand.phone.pilot().and_then(|_| hand.note(CALL)).is_ok();
        count.went_on += u64::from(recorded);
        count.begun_anew += u64::from(!recorded);
    }
    drop(scene.hand.take());
    match Hand::open(&scene.journal(), &scene.now) {
        Ok(again) => drop(again),
        Err(error) => return count.wrong.push(format!("{told}: begun anew: {error}")),
    }
    let Some(known) = known else { return };
    let anew = standing(&folder).unwrap_or_default();
    // A new record adopts the plan that is shipped when it is opened.
    // A change of place that was told as failed behind its end, or could not be taken back either and is ended now. What was recorded since
    // is asked for below.
    let is_ended = after.as_ref().is_some_and(|after| anew.starts_with(after));
    count.hold(anew.starts_with(known) || is_ended, told, "entries that were there are not, once it is begun anew");
    let is_there = anew.iter().any(|(_, body)| matches!(body, Body::EmergencyNoted { call, .. } if call == CALL));
    count.hold(
        is_there == recorded,
        told,
        "the next entry was told as recorded and is not there, or the other way round",
    );
}

#[test]
#[allow(clippy::print_stdout)] // what was tried
fn a_disk_that_fails_or_is_full_at_any_call_never_leads_to_a_false_recorded() {
    vfs::stand_in();
    let wanted = asked_for();
    let acts = wanted_acts();
    let mut all = Count::default();
    let mut calls = 0;
    for (number, act) in acts.enumerate() {
        let began = std::time::Instant::now();
        let well = well(act);
        calls += well.calls;
        // The short form takes one call of each act, failing in one way.
        let step = wanted.map_or(well.calls, |wanted| if wanted < 1_000 { 20 } else { 1 }).max(1);
        let mut count = Count::default();
        for at in (7 * number as u64 % step..well.calls).step_by(step as usize) {
            let ways = [Failing::Once, Failing::FromThenOn, Failing::Full];
            let some = wanted.map_or(&ways[number % 3..][..1], |_| &ways);
            some.iter().for_each(|failing| fail(act, &well, at, *failing, &mut count));
        }
        println!(
            "{:50} {:5} calls, {:5} tried, {:5} told as done, {:5} as failed, {:.1} s; {:?}",
            act.name,
            well.calls,
            count.tried,
            count.told_well,
            count.told_failed,
            began.elapsed().as_secs_f64(),
            well.kinds
        );
        all.tried += count.tried;
        all.told_well += count.told_well;
        all.told_failed += count.told_failed;
        all.there_all_the_same += count.there_all_the_same;
        all.went_on += count.went_on;
        all.begun_anew += count.begun_anew;
        all.between_two += count.between_two;
        all.wrong.append(&mut count.wrong);
    }
    println!(
        "{} failures at {calls} calls: {} told as done and there, {} told as failed ({} of them there all the same, {} as between \
         two journals); the same app went on {} times, {} times it had to be begun anew",
        all.tried,
        all.told_well,
        all.told_failed,
        all.there_all_the_same,
        all.between_two,
        all.went_on,
        all.begun_anew
    );
    assert!(all.wrong.is_empty(), "{}", all.wrong.join("\n"));
    let is_of_all = std::env::var("LIFTGATE_ACT").is_err();
    assert!(!is_of_all || (all.told_failed > all.told_well / 10 && all.told_well > 0));
}
