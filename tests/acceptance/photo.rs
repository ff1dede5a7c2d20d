//! A photo as evidence: picked for a check, kept as it came, shown small, carried in the dossier and in the backup.

use liftgate_core::record::{Body, PhotoOf};
use liftgate_core::view::{Block, Work};
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const CHECK: &str = "Pack warm enough, and not hot";

/// A photo as a camera writes it: a grey ground.
fn taken() -> Vec<u8> {
    let mut file = Vec::new();
    let pixels = vec![120; 1_600 * 1_200];
    jpeg_encoder::Encoder::new(&mut file, 90).encode(&pixels, 1_600, 1_200, jpeg_encoder::ColorType::Luma).unwrap();
    file
}

/// Someone on the page of a check that is looked at.
fn at_the_check() -> Person {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    walk.person.home();
    walk.person.tap(CHECK);
    walk.person
}

fn shown(person: &Person) -> Option<Vec<u8>> {
    person.screen().blocks.into_iter().find_map(|block| match block {
        Block::Photo { jpeg, .. } => Some(jpeg),
        _ => None,
    })
}

#[test]
fn one_is_attached_to_a_check_and_seen_there_in_the_dossier_and_on_another_phone() {
    let mut person = at_the_check();
    let file = taken();
    person.enter("Remark", "The strap looked worn");
    let said = person.pick("Attach a photo", "IMG_0042.jpg", &file).said;
    assert_eq!(said.as_deref(), Some("Photo attached: pack warm enough, and not hot"));
    let Body::PhotoAttached { of: PhotoOf::Check(_), photo } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((photo.bytes, photo.width_px, photo.height_px), (file.len() as u64, 1_600, 1_200));
    assert_eq!(person.typed("Remark").0, "The strap looked worn", "what was being typed stays");

    person.tap("Photo 1");
    let small = shown(&person).unwrap();
    assert!(small.len() < file.len() * 2 && small.starts_with(&[0xff, 0xd8, 0xff]));
    assert_eq!(person.save("Save the photo as it came"), file);

    let page = person.dossier();
    assert!(
        page.contains("img-src data:") && page.contains("src=\"data:image/jpeg;base64,"),
        "it is in the page itself"
    );
    assert!(page.contains(&photo.sha256) && page.contains("Photo 1. Pack warm enough, and not hot"));

    let backup = person.backup();
    let mut second = Person::new();
    second.now = person.now.clone();
    second.wait(3_600);
    second.to_the_backup();
    second.bring_in("regenpfeifer-backup.zip", &backup);
    second.tap("Go on with the backup");
    second.home();
    second.tap("Journal");
    second.tap("Photo: pack warm enough");
    second.tap("Look at the photo");
    assert_eq!(second.save("Save the photo as it came"), file);
}

#[test]
fn what_is_no_photo_is_refused_and_nothing_of_it_is_kept() {
    let mut person = at_the_check();
    let before = person.entries().len();
    let file = taken();
    for (name, bytes, why) in [
        ("scan.png", b"\x89PNG\r\n\x1a\nand so on".to_vec(), "no JPEG file"),
        ("cut.jpg", file[..12].to_vec(), "cannot be decoded"),
        ("long.jpg", [file.clone(), vec![0; 25 << 20]].concat(), "longer than 25 MB"),
    ] {
        let refused = person.try_pick("Attach a photo", name, &bytes).unwrap_err().to_string();
        assert!(refused.contains(why) && refused.contains(name), "{refused}");
        assert_eq!(person.screen().work, None::<Work>);
    }
    assert_eq!(person.entries().len(), before);
    let entries: Vec<_> = person.screen().blocks;
    assert!(!entries.iter().any(|block| matches!(block, Block::Row { title, .. } if title.starts_with("Photo"))));
}

#[test]
fn one_that_was_a_slip_is_taken_back_and_the_aircrafts_own_stands_on_the_first_page() {
    let mut person = at_the_check();
    let file = taken();
    person.pick("Attach a photo", "IMG_0042.jpg", &file);
    person.tap("Take back");
    assert!(person.row("Photo 1").is_none());
    person.home();
    person.tap("Aircraft");
    person.pick("Attach a photo", "whole.jpg", &file);
    let page = person.dossier();
    let first = page.find("class=\"photo first\"").unwrap();
    assert!(first < page.find("id=\"stages\"").unwrap());
    assert_eq!(page.matches("src=\"data:image/jpeg;base64,").count(), 2, "on the first page and among the photos");
}
