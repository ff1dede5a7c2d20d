# Words of recorded things: kinds, fields, grades, marks.
