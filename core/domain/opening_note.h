#pragma once
// What there is to say of a book that was opened: facts that stopped nothing.
#include <filesystem>
#include <string>

namespace likeleaf {

struct OpeningNote {
  enum class Kind {
    recovered,         ///< it was not closed properly last time; what was kept then is there
    network_drive,     ///< it lies on one
    write_protected,   ///< its file or its folder is: it is open for reading
    climbed,           ///< it was of an older version; `where` is the copy as it was
    climbed_in_memory  ///< it is of an older version and stays so: what is read is a copy in memory
  };
  Kind kind = Kind::recovered;
  std::filesystem::path where;  ///< the book, or the copy
  std::string drive = {};       ///< network_drive: "NFS"
  int version = 0;              ///< climbed: the version that it was, or is, of
  bool operator==(const OpeningNote&) const = default;
};

}  // namespace likeleaf
