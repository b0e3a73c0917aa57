// What could not be done: field, value, what is allowed, where.
#include "core/wording/errors.h"
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

  of("the log was there", {ErrorKind::damaged, "journal", "recovered", {}, "a.leafbook"},
     "The book was not closed properly last time; what was kept then is all here (a.leafbook).");
  of("another thing about the log", {ErrorKind::damaged, "journal", "cut", {}, {}}, "Journal: damaged: “cut”.");
  of("a network drive", {ErrorKind::bad_value, "network drive", "nfs", {}, "a.leafbook"},
     "The book lies on a network drive (nfs); a disk of this computer is safer: a drive that drops out can damage it "
     "(a.leafbook).");
  of("the folder was renamed", {ErrorKind::cannot_write, "book", "gone from its place", {}, "a.leafbook"},
     "The book is no longer at a.leafbook: its folder was renamed, moved or taken away. Put it back, then try again.");
  of("the book cannot be written", {ErrorKind::cannot_write, "book", "x", {}, {}}, "Book: cannot be written: “x”.");
  of("another one holds the book", {ErrorKind::in_use, "book", "R. on bench-2", {}, "a.leafbook"},
     "The book is open elsewhere, by R. on bench-2. Close it there, then open it here (a.leafbook).");
  of("nobody knows who holds it", {ErrorKind::in_use, "book", {}, {}, {}}, "Book: open elsewhere.");
  of("write-protected", {ErrorKind::read_only, "book", {}, {}, "a.leafbook"},
     "The book cannot be changed: its file or its folder is write-protected (a.leafbook).");
  of("opened for reading", {ErrorKind::read_only, "book", "seal", {}, {}}, "Book: cannot be changed: “seal”.");
  of("opened for reading", {ErrorKind::read_only, "book", {}, "a copy", {}},
     "Book: cannot be changed; allowed: a copy.");
  return page;
}

}  // namespace likeleaf::book
