#include "core/wording/opening_notes.h"

#include <fmt/format.h>

namespace likeleaf::wording {

std::string sentence(const OpeningNote& note) {
  const std::string where = note.where.string();
  switch (note.kind) {
    case OpeningNote::Kind::recovered:
      return fmt::format("The book was not closed properly last time; what was kept then is all here ({}).", where);
    case OpeningNote::Kind::network_drive:
      return fmt::format(
          "The book lies on a network drive ({}); a disk of this computer is safer: a drive that drops out can damage "
          "it ({}).",
          note.drive, where);
    case OpeningNote::Kind::write_protected:
      return fmt::format("The book cannot be changed: its file or its folder is write-protected ({}).", where);
    case OpeningNote::Kind::climbed:
      return fmt::format("The book was of an older version ({}) and is of this one now; as it was, it is kept in {}.",
                         note.version, where);
    case OpeningNote::Kind::climbed_in_memory:
      break;
  }
  return fmt::format(
      "The book is of an older version ({}). It stays as it is; what is read here is a copy in memory ({}).",
      note.version, where);
}

}  // namespace likeleaf::wording
