# Photos as evidence.

photo-heading = Photos
photo-number = Photo { $number }, { $when }
photo-title = Photo { $number }
photo-take = Take a photo
photo-add = Attach a photo
photo-attached = Photo attached: { $of }
photo-of-aircraft = The aircraft
photo-size = { $width } × { $height } pixels, { $megabytes } MB
photo-spoken = Photo of { $of }
photo-look = Look at the photo
photo-recorded = Attached { $when }
photo-taken = Taken { $day }, { $time }, by the camera's own clock
photo-digest = SHA-256 of the file as it came
photo-kept = The file is kept byte for byte and goes into every backup. The dossier carries a small copy. Taken back, it counts no more and is kept all the same.
photo-save = Save the photo as it came
photo-file-word = photo-{ $number }
photo-gone = The photo's file is not here any more, or not what was attached. A backup may have it.
photo-unreadable = The photo is kept as it came, but it cannot be shown here.
photo-not-jpeg = { $name } is no JPEG file. Cameras write one as “most compatible”: choose that in the camera's settings, or save the picture as JPEG first.
photo-too-long = { $name } is longer than { $most } MB: send it through the phone's own picture editor in a smaller size first.
photo-too-many-pixels = { $name } has { $count } million pixels: save it smaller first.
photo-broken = { $name } cannot be decoded: it may have come cut off. Take it again, or pick another.
