// freeze_book FOLDER: writes a book of the newest schema, book-vN.leafbook, and what is in it, book-vN.txt. Both go to
// tests/reference before the next schema is begun, and are never made again.
#include <fstream>
#include <iostream>

#include "core/store/ladder.h"
#include "tests/core/store/bench_book.h"
#include "tests/core/store/book_contents.h"
#include "tests/core/store/whole_life.h"

namespace likeleaf::test {
namespace {

/// A finished trial with its report, one in the middle of the tasting, and a draft.
void write_book(const std::filesystem::path& path) {
  World world;
  auto session = new_bench(path, world);
  Attribute brisk = *find_attribute(session->attributes(), "astringency");
  brisk.house_word = "brisk";
  session->put(brisk).value();
  live_through(*session, world);
  session->keep_report({{}, session->trial()->id(), {}, "Likeleaf 0.1.0", "Trial 15", "PDF", R"({"blocks":[]})"})
      .value();
  session->new_trial(FerryPier().trial_14()).value();
  if (const auto sealed = session->seal(); !sealed) throw std::runtime_error(words_of(sealed.error()));
  const auto flight = live_servings(*session->trial());
  const auto first = flight.front()->id, second = flight[1]->id;
  fill_sheet(*session, first);
  session->run(LockSheet{first}).value();
  session->run(StartSheet{second}).value();
  session->run(PutMark{second, Side::left, "body", *Score::from_halves(9)}).value();
  session->new_trial(FerryPier().trial_16()).value();
  done(session->flush());
}

void freeze(const std::filesystem::path& folder) {
  const std::string stem = "book-v" + std::to_string(store::built_in_ladder().newest());
  const auto book = folder / (stem + ".leafbook");
  write_book(book);
  World world;
  auto session = Session::open(book, OpenWay::read_only, world.services());
  if (!session) throw std::runtime_error(words_of(session.error()));
  std::ofstream(folder / (stem + ".txt"), std::ios::binary) << contents(**session);
}

}  // namespace
}  // namespace likeleaf::test

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: freeze_book FOLDER\n";
    return 2;
  }
  try {
    likeleaf::test::freeze(argv[1]);
    return 0;
  } catch (const std::exception& problem) {
    std::cerr << "freeze_book: " << problem.what() << '\n';
    return 1;
  }
}
