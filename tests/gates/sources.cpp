#include "sources.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace likeleaf::gates {
namespace fs = std::filesystem;
namespace {

const fs::path root = LIKELEAF_SOURCE_DIR;

std::string file_text(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

bool is_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

/// Length of a raw string that begins at R" in text[at…], or 0 when none does.
std::size_t raw_string_length(std::string_view text, std::size_t at) {
  if (text.substr(at, 2) != "R\"") return 0;
  const auto open = text.find('(', at);
  if (open == std::string_view::npos) return 0;
  std::string close(text.substr(at + 2, open - at - 2));
  close.insert(close.begin(), ')');
  close += '"';
  const auto end = text.find(close, open);
  return (end == std::string_view::npos ? text.size() : end + close.size()) - at;
}

/// Length of a "…" or '…' that begins at text[at]; it ends with its line at the latest.
std::size_t literal_length(std::string_view text, std::size_t at) {
  std::size_t i = at + 1;
  while (i < text.size() && text[i] != text[at] && text[i] != '\n') i += text[i] == '\\' ? 2 : 1;
  return std::min(i + 1, text.size()) - at;
}

void blank(std::string& out, std::string_view text) {
  for (const char c : text) out += c == '\n' ? '\n' : ' ';
}

}  // namespace

std::string code_of(std::string_view text, Literals literals) {
  std::string out;
  out.reserve(text.size());
  const auto literal = [&](std::size_t at, std::size_t length) {
    if (literals == Literals::keep)
      out += text.substr(at, length);
    else
      blank(out, text.substr(at, length));
  };
  for (std::size_t i = 0; i < text.size();) {
    std::size_t length = 1;
    const bool starts_word = i == 0 || !is_word(text[i - 1]);
    if (text.substr(i, 2) == "//") {
      length = std::min(text.find('\n', i), text.size()) - i;
      blank(out, text.substr(i, length));
    } else if (text.substr(i, 2) == "/*") {
      const auto end = text.find("*/", i + 2);
      length = (end == std::string_view::npos ? text.size() : end + 2) - i;
      blank(out, text.substr(i, length));
    } else if (const auto raw = starts_word ? raw_string_length(text, i) : 0; raw > 0) {
      literal(i, length = raw);
    } else if (text[i] == '"' || (text[i] == '\'' && starts_word)) {  // 1'000'000 is a number
      literal(i, length = literal_length(text, i));
    } else {
      out += text[i];
    }
    i += length;
  }
  return out;
}

std::vector<Include> includes_of(std::string_view text) {
  std::vector<Include> found;
  const std::string code = code_of(text, Literals::keep);
  int line = 0;
  for (std::size_t at = 0; at < code.size();) {
    const auto end = std::min(code.find('\n', at), code.size());
    std::string_view rest = std::string_view(code).substr(at, end - at);
    at = end + 1;
    ++line;
    const auto skip = [&](std::string_view word) {
      rest.remove_prefix(std::min(rest.find_first_not_of(" \t"), rest.size()));
      const bool here = rest.starts_with(word);
      if (here) rest.remove_prefix(word.size());
      return here;
    };
    if (!skip("#") || !skip("include")) continue;
    skip("");
    if (rest.empty() || (rest.front() != '<' && rest.front() != '"')) continue;
    const char mark = rest.front();
    const auto close = rest.find(mark == '<' ? '>' : '"', 1);
    if (close != std::string_view::npos) found.push_back({line, std::string(rest.substr(1, close - 1)), mark == '<'});
  }
  return found;
}

std::map<std::string, std::string> reached_from(const Sources& sources, const std::string& path) {
  std::map<std::string, std::string> reached;
  std::vector<std::string> open{path};
  while (!open.empty()) {
    const std::string from = open.back();
    open.pop_back();
    const auto file = sources.find(from);
    if (file == sources.end()) continue;
    for (const Include& include : includes_of(file->second)) {
      const std::string beside = (fs::path(from).parent_path() / include.name).lexically_normal().generic_string();
      const std::string& target = !include.angled && sources.contains(beside) ? beside : include.name;
      if (sources.contains(target) && reached.emplace(target, from).second) open.push_back(target);
    }
  }
  return reached;
}

std::string way_to(const std::map<std::string, std::string>& reached, const std::string& start, std::string target) {
  std::string way = target;
  for (std::size_t step = 0; target != start && step <= reached.size(); ++step) {
    target = reached.at(target);
    way += ", by " + target;
  }
  return way;
}

Sources project_sources(const std::vector<std::string>& folders) {
  Sources sources;
  for (const auto& folder : folders) {
    if (!fs::exists(root / folder)) continue;
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
      const auto extension = entry.path().extension();
      if (entry.is_regular_file() && (extension == ".h" || extension == ".cpp"))
        sources[entry.path().lexically_relative(root).generic_string()] = file_text(entry.path());
    }
  }
  return sources;
}

std::vector<std::string> tracked_paths() {
  std::vector<std::string> paths;
  const std::string listed = output_of("git -C '" + root.string() + "' ls-files -z 2>/dev/null");
  for (std::size_t at = 0; at < listed.size();) {
    const auto end = std::min(listed.find('\0', at), listed.size());
    paths.push_back(listed.substr(at, end - at));
    at = end + 1;
  }
  if (paths.empty()) {
    for (auto entry = fs::recursive_directory_iterator(root); entry != fs::recursive_directory_iterator(); ++entry) {
      const std::string name = entry->path().filename().string();
      if (entry->is_directory() && (name == ".git" || name == "out" || name.starts_with("build")))
        entry.disable_recursion_pending();
      else if (entry->is_regular_file())
        paths.push_back(entry->path().lexically_relative(root).generic_string());
    }
  }
  return paths;
}

Sources tracked_texts() {
  Sources texts;
  for (const auto& path : tracked_paths()) {
    if (!fs::is_regular_file(root / path)) continue;
    std::string text = file_text(root / path);
    if (text.find('\0') == std::string::npos) texts.emplace(path, std::move(text));
  }
  return texts;
}

std::string output_of(const std::string& command) {
  std::string out;
  if (FILE* pipe = popen(command.c_str(), "r")) {
    std::array<char, 65536> part{};
    while (const auto got = std::fread(part.data(), 1, part.size(), pipe)) out.append(part.data(), got);
    pclose(pipe);
  }
  return out;
}

bool is_header(std::string_view path) {
  return path.ends_with(".h");
}

std::string joined(const Offences& offences) {
  constexpr std::size_t enough = 30;
  std::string all;
  for (std::size_t i = 0; i < offences.size() && i < enough; ++i) all.append("\n  ").append(offences[i]);
  if (offences.size() > enough) all.append("\n  and ").append(std::to_string(offences.size() - enough)).append(" more");
  return all;
}

}  // namespace likeleaf::gates
