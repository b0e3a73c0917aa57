// What could not be done: field, value, what is allowed, where.
#include "core/wording/errors.h"

#include "core/wording/opening_notes.h"
#include "tests/core/wording/book.h"

namespace likeleaf::book {

Page errors_page() {
  Page page;
  const auto of = [&](const std::string& facts, const Error& error, const std::string& sentence) {
    page.push_back({facts, wording::sentence(error), sentence});
  };
  of("all four facts",
     {ErrorKind::bad_value, "bitterness, cup 417", "7.3", "0 to 10 in half steps", "marks.csv, line 4"},
     "Bitterness, cup 417: cannot take “7.3”; allowed: 0 to 10 in half steps (marks.csv, line 4).");
  of("no field", {ErrorKind::bad_value, {}, "7.3", {}, {}}, "cannot take “7.3”.");
  of("a field with a large letter", {ErrorKind::bad_value, "Úrsula", "x", {}, {}}, "Úrsula: cannot take “x”.");
  of("a field above small letters", {ErrorKind::bad_value, "{lots}", "x", {}, {}}, "{lots}: cannot take “x”.");
  of("a field from a to z", {ErrorKind::missing, "aroma", {}, {}, {}}, "Aroma: is missing.");
  of("a field from a to z", {ErrorKind::missing, "zest", {}, {}, {}}, "Zest: is missing.");

  struct Kind {
    ErrorKind kind;
    const char *with_value, *without;
  };
  for (const auto& [kind, with_value, without] : {
           Kind{ErrorKind::bad_value, "Lots: cannot take “x”.", "Lots: that value cannot be taken."},
           Kind{ErrorKind::missing, "Lots: missing: “x”.", "Lots: is missing."},
           Kind{ErrorKind::duplicate, "Lots: is there twice: “x”.", "Lots: is there twice."},
           Kind{ErrorKind::not_allowed, "Lots: not possible now: “x”.", "Lots: not possible now."},
           Kind{ErrorKind::not_found, "Lots: not found: “x”.", "Lots: not found."},
           Kind{ErrorKind::conflict, "Lots: the same record with other content is already there: “x”.",
                "Lots: the same record with other content is already there."},
           Kind{ErrorKind::malformed, "Lots: not in the expected form: “x”.", "Lots: not in the expected form."},
           Kind{ErrorKind::too_large, "Lots: too large: “x”.", "Lots: too large."},
           Kind{ErrorKind::too_deep, "Lots: nested too deep: “x”.", "Lots: nested too deep."},
           Kind{ErrorKind::newer_version, "Lots: made by a newer Likeleaf: “x”.", "Lots: made by a newer Likeleaf."},
           Kind{ErrorKind::foreign_file, "Lots: not a Likeleaf file: “x”.", "Lots: not a Likeleaf file."},
           Kind{ErrorKind::damaged, "Lots: damaged: “x”.", "Lots: damaged."},
           Kind{ErrorKind::in_use, "Lots: open elsewhere: “x”.", "Lots: open elsewhere."},
           Kind{ErrorKind::read_only, "Lots: cannot be changed: “x”.", "Lots: cannot be changed."},
           Kind{ErrorKind::disk_full, "Lots: no room left on the disk: “x”.", "Lots: no room left on the disk."},
           Kind{ErrorKind::cannot_read, "Lots: cannot be read: “x”.", "Lots: cannot be read."},
           Kind{ErrorKind::cannot_write, "Lots: cannot be written: “x”.", "Lots: cannot be written."},
           Kind{ErrorKind::cancelled, "Stopped.", "Stopped."},
           Kind{ErrorKind::internal, "Lots: a fault of the program: “x”.", "Lots: a fault of the program."},
       }) {
    of("every kind, with a value", {kind, "lots", "x", {}, {}}, with_value);
    of("every kind, without one", {kind, "lots", {}, {}, {}}, without);
  }

  of("another thing about the log", {ErrorKind::damaged, "journal", "cut", {}, {}}, "Journal: damaged: “cut”.");

  struct Named {
    Field at;
    const char* sentence;
  };
  for (const auto& [at, sentence] :
       {Named{Field::book, "Book: is missing."}, Named{Field::from_when, "From when: is missing."},
        Named{Field::house_rule, "House rule: is missing."}, Named{Field::leaves, "Leaves: is missing."},
        Named{Field::look_again, "Look again: is missing."}, Named{Field::new_value, "New value: is missing."},
        Named{Field::reason, "Reason: is missing."}, Named{Field::review_date, "Review date: is missing."},
        Named{Field::who, "Who: is missing."}})
    of("every field that code decides by", {ErrorKind::missing, {}, {}, {}, {}, at}, sentence);
  const auto of_book = [&](const std::string& facts, ErrorKind kind, const std::string& value,
                           const std::string& allowed, const std::string& where, const std::string& sentence) {
    of(facts, {kind, {}, value, allowed, where, Field::book}, sentence);
  };
  of_book("the folder was renamed", ErrorKind::gone, {}, {}, "a.leafbook",
          "The book is no longer at a.leafbook: its folder was renamed, moved or taken away. Put it back, then try "
          "again.");
  of_book("the book cannot be written", ErrorKind::cannot_write, "x", {}, {}, "Book: cannot be written: “x”.");
  of_book("another one holds the book", ErrorKind::in_use, "R. on bench-2", {}, "a.leafbook",
          "The book is open elsewhere, by R. on bench-2. Close it there, then open it here (a.leafbook).");
  of_book("nobody knows who holds it", ErrorKind::in_use, {}, {}, {}, "Book: open elsewhere.");
  of_book("write-protected", ErrorKind::read_only, {}, {}, "a.leafbook",
          "The book cannot be changed: its file or its folder is write-protected (a.leafbook).");
  of_book("opened for reading", ErrorKind::read_only, "seal", {}, {}, "Book: cannot be changed: “seal”.");
  of_book("opened for reading", ErrorKind::read_only, {}, "a copy", {}, "Book: cannot be changed; allowed: a copy.");
  return page;
}

Page opening_notes_page() {
  using Kind = OpeningNote::Kind;
  Page page;
  const auto of = [&](const std::string& facts, const OpeningNote& note, const std::string& sentence) {
    page.push_back({facts, wording::sentence(note), sentence});
  };
  OpeningNote note;
  note.where = "a.leafbook";
  note.kind = Kind::recovered;
  of("the log was there", note,
     "The book was not closed properly last time; what was kept then is all here (a.leafbook).");
  note.kind = Kind::network_drive;
  note.drive = "nfs";
  of("a network drive", note,
     "The book lies on a network drive (nfs); a disk of this computer is safer: a drive that drops out can damage it "
     "(a.leafbook).");
  note.kind = Kind::write_protected;
  of("write-protected", note, "The book cannot be changed: its file or its folder is write-protected (a.leafbook).");
  note.version = 1;
  note.kind = Kind::climbed_in_memory;
  of("older and only read", note,
     "The book is of an older version (1). It stays as it is; what is read here is a copy in memory (a.leafbook).");
  note.kind = Kind::climbed;
  note.where = "a.leafbook.1";
  of("older", note,
     "The book was of an older version (1) and is of this one now; as it was, it is kept in a.leafbook.1.");
  return page;
}

}  // namespace likeleaf::book
