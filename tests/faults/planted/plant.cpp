// Plants one fault into a copy of the project: planted_fault ROOT SEED N [FOLDER…] turns the N-th place drawn by SEED
// about, of all .h and .cpp files below the folders (core and ui), and prints "path TAB line TAB what was TAB what is".
// With N = 0 it plants nothing and prints how many places there are.
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>

#include "places.h"

namespace fs = std::filesystem;
using namespace likeleaf::planted;

namespace {

std::map<std::string, std::string> sources(const fs::path& root, const std::vector<std::string>& folders) {
  std::map<std::string, std::string> found;
  const auto take = [&](const fs::path& path) {
    if (path.extension() != ".h" && path.extension() != ".cpp") return;
    std::ifstream in(path, std::ios::binary);
    found[path.lexically_relative(root).generic_string()] = {std::istreambuf_iterator<char>(in), {}};
  };
  for (const auto& folder : folders) {
    if (fs::is_regular_file(root / folder))
      take(root / folder);
    else
      for (const auto& entry : fs::recursive_directory_iterator(root / folder)) take(entry.path());
  }
  return found;
}

std::string on_one_line(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != ' ' && c != '\n')
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  return out.empty() ? "(nothing)" : out;
}

int plant(const fs::path& root, std::uint64_t seed, std::size_t number, const std::vector<std::string>& folders) {
  const auto texts = sources(root, folders);
  std::vector<Place> places;
  for (const auto& [path, text] : texts)
    for (auto& place : places_of(path, text)) places.push_back(std::move(place));
  if (number == 0) {
    std::cout << places.size() << '\n';
    return 0;
  }
  if (number > places.size()) return 1;
  const Place place = drawn(std::move(places), seed)[number - 1];
  std::string text = texts.at(place.path);
  text.replace(place.at, place.is.size(), place.turned);
  std::ofstream(root / place.path, std::ios::binary) << text;
  std::cout << place.path << '\t' << place.line << '\t' << on_one_line(place.is) << '\t' << on_one_line(place.turned)
            << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) {
    std::cerr << "planted_fault ROOT SEED N [FOLDER…]\n";
    return 2;
  }
  std::vector<std::string> folders(argv + 4, argv + argc);
  if (folders.empty()) folders = {"core", "ui"};
  try {
    return plant(argv[1], std::strtoull(argv[2], nullptr, 10), std::strtoull(argv[3], nullptr, 10), folders);
  } catch (const std::exception& failure) {
    std::cerr << "planted_fault: " << failure.what() << '\n';
    return 2;
  }
}
