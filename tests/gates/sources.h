#pragma once
// The project's own text, read as the gates need it: files by path, code without comments, who includes whom.
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace likeleaf::gates {

/// Text by path from the project's root ("core/base/id.h"). The gates take this, so that a test can feed them bad
/// snippets.
using Sources = std::map<std::string, std::string>;

/// What a gate objects to: "core/base/id.h:12: …". Empty: all is well.
using Offences = std::vector<std::string>;

/// All .h and .cpp files below the named folders of this project.
Sources project_sources(const std::vector<std::string>& folders);
/// Every file that git knows, by its path from the root; without git, every file outside build folders.
std::vector<std::string> tracked_paths();
/// The text of those, binary files left out.
Sources tracked_texts();

enum class Literals { keep, blank };
/// The text with comments (and, if asked, the insides of string and character literals) turned into spaces; lines stay.
std::string code_of(std::string_view text, Literals literals);

struct Include {
  int line = 0;
  std::string name;     ///< without its marks
  bool angled = false;  ///< <…>, not "…"
};
std::vector<Include> includes_of(std::string_view text);

/// Files reached from one by quoted includes, each with the file that included it; the file itself is not among them
/// unless it is reached again. Names that are no file of ours are left out.
std::map<std::string, std::string> reached_from(const Sources& sources, const std::string& path);
/// "a.h, by b.h, by c.cpp": how `reached` came to include `target`.
std::string way_to(const std::map<std::string, std::string>& reached, const std::string& start, std::string target);

/// What a command prints to standard output; empty when it cannot be run.
std::string output_of(const std::string& command);

bool is_header(std::string_view path);
std::string joined(const Offences& offences);  ///< for a failure message: one a line, the first thirty

}  // namespace likeleaf::gates
