// make_book BOOK TRIALS: writes a book of made-up trials, to try the program on.
#include <charconv>
#include <cstdio>
#include <cstring>

#include "tests/bench/book_of_trials.h"

int main(int argc, char** argv) {
  int trials = 0;
  if (argc == 3) std::from_chars(argv[2], argv[2] + std::strlen(argv[2]), trials);
  if (trials < 1) {
    std::fprintf(stderr, "usage: make_book BOOK TRIALS\n");
    return 2;
  }
  const auto made = likeleaf::bench::make_book(argv[1], trials);
  if (!made) std::fprintf(stderr, "make_book: %s %s\n", made.error().field.c_str(), made.error().value.c_str());
  return made ? 0 : 1;
}
