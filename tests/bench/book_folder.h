#pragma once
// Folders of the benchmarks, gone when they end.
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>

#include "tests/bench/book_of_trials.h"

namespace likeleaf::bench {

struct Folder {
  std::filesystem::path path = std::filesystem::temp_directory_path() / ("likeleaf-bench-" + std::to_string(getpid()));
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

/// A book of so many trials, made the first time it is asked for; what a benchmark adds to it stays. The folder that
/// LIKELEAF_BENCH_BOOKS names keeps its books for the next run.
inline std::filesystem::path book_of(int trials) {
  static const char* kept = std::getenv("LIKELEAF_BENCH_BOOKS");
  static const auto folder = kept == nullptr ? std::make_unique<Folder>() : nullptr;
  const auto book =
      (folder ? folder->path : std::filesystem::path(kept)) / ("trials-" + std::to_string(trials) + ".leafbook");
  if (!std::filesystem::exists(book))
    if (const auto made = make_book(book, trials); !made) throw std::runtime_error(made.error().field);
  return book;
}

}  // namespace likeleaf::bench
