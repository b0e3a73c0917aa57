// Score sheets: a cover a sitting, a sheet a pair. Scales to cross with a pen and a box for the number beside each.
#include <algorithm>
#include <array>
#include <utility>

#include "ui/render/print_page.h"

namespace likeleaf::ui {
namespace {

constexpr double sheet_margin = 46;
constexpr double name_width = 184, scale_gap = 14, box_width = 44, column_width = 40;
constexpr std::array unscored{"could not\njudge", "not\ntasted", "spoilt"};

const Tokens& t() {
  return light_tokens();
}
TextLook body(double size = 12, Weight weight = Weight::regular) {
  return {size, weight, t().ink, Qt::AlignLeft, 1.25};
}
TextLook soft(double size = 10) {
  return {size, Weight::regular, t().soft_ink, Qt::AlignLeft, 1.2};
}

/// Lays one pair's sheet out as strips. The sheet outlives the strips.
class PairStrips {
 public:
  PairStrips(PrintPage& page, const report::PairSheet& sheet) : page_(page), sheet_(sheet) {
    scale_x_ = page.left + name_width + scale_gap;
    boxes_x_ = page.right - 3 * column_width;
    number_x_ = boxes_x_ - box_width - 8;
    scale_width_ = number_x_ - scale_x_ - 14;
  }

  std::vector<Strip> all() {
    for (const auto& part : sheet_.parts) add_part(part);
    comparing();
    note();
    codes();
    return std::move(strips_);
  }

  /// Head of the sheet; gives its height. `whole`: with the cups as they stand.
  double head(double y, bool whole) {
    page_.put(words_of(sheet_.taster), page_.left, y, 230, {20, Weight::bold});
    TextLook right = body(13, Weight::semi_bold);
    right.align = Qt::AlignRight;
    page_.put(QStringLiteral("sitting\u00A0%1 · ").arg(sheet_.sitting) + words_of(sheet_.pair), page_.right - 240,
              y + 3, 240, right);
    if (!whole) return 34;
    const double middle = page_.left + page_.width() / 2, apart = 36, radius = 25, at = y + 27;
    page_.cup(words_of(sheet_.left), middle - apart, at, radius);
    page_.cup(words_of(sheet_.right), middle + apart, at, radius);
    TextLook side = soft(11);
    const auto place = [&](Side s) {
      return QString(s == Side::left ? QStringLiteral("left") : QStringLiteral("right")) +
             (sheet_.first == s ? QStringLiteral(", first") : QString());
    };
    side.align = Qt::AlignRight;
    page_.put(place(Side::left), middle - apart - radius - 70, at - 7, 64, side);
    side.align = Qt::AlignLeft;
    page_.put(place(Side::right), middle + apart + radius + 6, at - 7, 64, side);
    return 56;
  }

 private:
  void add(double height, std::function<void(double)> paint, bool stretches = false, double keep = 0) {
    strips_.push_back({height, std::move(paint), stretches, false, keep});
  }

  void add_part(const report::SheetPart& part) {
    add(
        33,
        [this, &part](double y) {
          page_.put(words_of(part.title), page_.left, y + 8, 300, body(14, Weight::bold));
          page_.put(words_of(part.hint), scale_x_, y + 11, scale_width_ + 60, soft(10));
          for (std::size_t i = 0; i < unscored.size(); ++i) {
            TextLook look = soft(8.5);
            look.align = Qt::AlignHCenter;
            page_.put(QString::fromLatin1(unscored[i]), boxes_x_ + static_cast<double>(i) * column_width - 4, y + 8,
                      column_width + 8, look);
          }
          page_.rule(page_.left, y + 31, page_.right, y + 31, 0.9);
        },
        false, 60);
    strips_.back().new_page = part.own_page;
    for (const auto& line : part.lines) add_line(part, line);
    for (const auto& cup : part.words_of) add_words(cup);
  }

  void add_line(const report::SheetPart& part, const report::ScaleLine& line) {
    const QString name = words_of(part.names_cups ? line.cup + ": " + line.name : line.name);
    const QString definition = words_of(line.definition);
    double left_height = page_.height(name, name_width, body(12, Weight::semi_bold));
    if (!definition.isEmpty()) left_height += page_.height(definition, name_width, soft(9.5));
    const auto names = [this, name, definition](double y) {
      const double h = page_.put(name, page_.left, y + 3, name_width, body(12, Weight::semi_bold));
      if (!definition.isEmpty()) page_.put(definition, page_.left, y + 3 + h, name_width, soft(9.5));
    };
    switch (line.scale) {
      case Scale::intensity: {
        // The low anchor takes what it needs, the high one the rest; only what is longer than both wraps.
        const double low = std::min(page_.lay(words_of(line.low), page_.sized(9.5), 4000).width + 2, scale_width_ / 2);
        const double high = scale_width_ - low - 10;
        const double anchors = std::max(page_.height(words_of(line.low), low, soft(9.5)),
                                        page_.height(words_of(line.high), high, soft(9.5)));
        add(
            std::max(left_height + 4, 22 + anchors),
            [this, names, &line, low, high](double y) {
              names(y);
              scale(scale_x_, y + 19, scale_width_, true);
              page_.put(words_of(line.low), scale_x_, y + 20, low, soft(9.5));
              TextLook right = soft(9.5);
              right.align = Qt::AlignRight;
              page_.put(words_of(line.high), scale_x_ + low + 10, y + 20, high, right);
              answer_boxes(y + 4);
            },
            true);
        break;
      }
      case Scale::seconds:
        add(
            std::max(left_height + 5, 26.0),
            [this, names](double y) {
              names(y);
              TextLook right = soft(10.5);
              right.align = Qt::AlignRight;
              page_.put(QStringLiteral("whole seconds; under 3 or over 120: write so"), scale_x_, y + 8,
                        scale_width_ + 6, right);
              answer_boxes(y + 4);
            },
            true);
        break;
      case Scale::register_bands:
        add_bands(names, left_height);
        break;
    }
  }

  void add_bands(const std::function<void(double)>& names, double left_height) {
    constexpr double row = 19.5;
    add(
        std::max(left_height + 5, 3 * row + 9),
        [this, names](double y) {
          names(y);
          for (int i = 0; i < 3; ++i) {
            const double at = y + 10 + i * row;
            static constexpr std::array bands{"Top", "Middle", "Base"};
            page_.put(QString::fromLatin1(bands[static_cast<std::size_t>(i)]), scale_x_, at - 2, 60, body(11));
            scale(scale_x_ + 56, at + 10, scale_width_ - 56, i == 0);
            answer_boxes(at - 3, row - 3);
          }
        },
        true);
  }

  void add_words(const std::string& cup) {
    add(
        24,
        [this, &cup](double y) {
          const double middle = page_.left + page_.width() * 0.62;
          const double wide = page_.put(QStringLiteral("Words for %1").arg(words_of(cup)), page_.left, y + 8, 110,
                                        body(11, Weight::medium));
          (void)wide;
          page_.rule(page_.left + 100, y + 22, middle - 14, y + 22, 0.6, t().soft_ink);
          const double ticked = page_.tick(QStringLiteral("fault in this cup:"), middle, y + 7, 11.5);
          page_.rule(middle + ticked + 6, y + 22, page_.right, y + 22, 0.6, t().soft_ink);
        },
        true);
  }

  void comparing() {
    if (sheet_.directs.empty()) return;
    const std::string left = sheet_.left.empty() ? "left more" : sheet_.left + " more";
    const std::string right = sheet_.right.empty() ? "right more" : sheet_.right + " more";
    constexpr double gap = 30, answer = 62, row = 19.5;
    const double half = (page_.width() - gap) / 2;
    add(
        46,
        [this, left, right, half](double y) {
          page_.put(words_of(sheet_.compare), page_.left, y + 8, 300, body(14, Weight::bold));
          page_.put(words_of(sheet_.compare_hint), scale_x_ + 24, y + 11, page_.right - scale_x_ - 24, soft(10));
          TextLook look = soft(10);
          look.align = Qt::AlignHCenter;
          for (int side = 0; side < (sheet_.directs.size() > 1 ? 2 : 1); ++side) {
            const double x = page_.left + side * (half + gap) + half - 3 * answer;
            const std::array<QString, 3> heads{words_of(left), QStringLiteral("can’t tell"), words_of(right)};
            for (int i = 0; i < 3; ++i)
              page_.put(heads[static_cast<std::size_t>(i)], x + i * answer, y + 31, answer, look);
          }
          page_.rule(page_.left, y + 45, page_.right, y + 45, 0.9);
        },
        false, row);
    const std::size_t rows = (sheet_.directs.size() + 1) / 2;
    for (std::size_t i = 0; i < rows; ++i)
      add(
          row,
          [this, i, rows, half](double y) {
            for (int side = 0; side < 2; ++side) {
              const std::size_t at = i + static_cast<std::size_t>(side) * rows;
              if (at >= sheet_.directs.size()) continue;
              const double x = page_.left + side * (half + gap);
              page_.put(words_of(sheet_.directs[at].attribute), x, y + 4, half - 3 * answer - 4,
                        body(11.5, Weight::medium));
              for (int k = 0; k < 3; ++k) page_.tick({}, x + half - 3 * answer + (k + 0.5) * answer - 6, y + 3);
            }
          },
          true);
  }

  void note() {
    add(
        26,
        [this](double y) {
          page_.put(QStringLiteral("Note"), page_.left, y + 10, 60, body(11, Weight::medium));
          page_.rule(page_.left + 44, y + 24, page_.right, y + 24, 0.6, t().soft_ink);
        },
        true);
  }

  void codes() {
    if (sheet_.codes_hint.empty()) return;
    const double height = page_.height(words_of(sheet_.codes_hint), page_.width(), soft(10.5));
    add(height + 8,
        [this](double y) { page_.put(words_of(sheet_.codes_hint), page_.left, y + 8, page_.width(), soft(10.5)); });
  }

  void scale(double x, double y, double width, bool digits) {
    page_.rule(x, y, x + width, y, 0.9);
    for (int half = 0; half <= 20; ++half) {
      const double at = x + width * half / 20;
      page_.rule(at, y - (half % 2 ? 4 : 7), at, y, half % 2 ? 0.5 : 0.8);
      if (!digits || half % 2) continue;
      TextLook look = soft(9.5);
      look.align = Qt::AlignHCenter;
      page_.put(QString::number(half / 2), at - 10, y - 19, 20, look);
    }
  }

  void answer_boxes(double y, double height = 21) {
    page_.ink().setPen(QPen(t().ink, 0.9));
    page_.ink().setBrush(Qt::NoBrush);
    page_.ink().drawRect(QRectF(number_x_, y, box_width, height));
    for (int i = 0; i < 3; ++i) page_.tick({}, boxes_x_ + (i + 0.5) * column_width - 6, y + (height - 15) / 2);
  }

  PrintPage& page_;
  const report::PairSheet& sheet_;
  std::vector<Strip> strips_;
  double scale_x_, boxes_x_, number_x_, scale_width_;
};

void paint_sheet(PrintPage& page, const report::PairSheet& sheet) {
  PairStrips strips(page, sheet);
  std::vector<Strip> all{{56, [&](double y) { strips.head(y, true); }}};
  for (auto& strip : strips.all()) all.push_back(std::move(strip));
  paint_strips(page, all, 9, [&] { return strips.head(page.top, false); });
}

void paint_cover(PrintPage& page, const report::SittingCover& cover) {
  std::vector<Strip> all;
  const auto text = [&](const QString& words, const TextLook& look, double above, double below, double indent = 0) {
    const double height = page.height(words, page.width() - indent, look);
    all.push_back({height + above + below, [&page, words, look, above, indent](double y) {
                     page.put(words, page.left + indent, y + above, page.width() - indent, look);
                   }});
  };
  text(words_of(cover.taster) + QStringLiteral(" · sitting\u00A0%1").arg(cover.sitting),
       {26, Weight::bold, t().ink, Qt::AlignLeft, 1.2}, 0, 4);
  text(QStringLiteral("%1 sheets, in the order of serving.").arg(cover.pairs), body(15), 0, 4);
  const auto heading = [&](const char* words) { text(QString::fromLatin1(words), body(15, Weight::semi_bold), 16, 4); };
  heading("Before you begin");
  for (const auto& one : cover.day)
    all.push_back({26, [&page, &one](double y) { page.tick(words_of(one), page.left, y + 3, 14); }});
  all.push_back({36, [&page](double y) {
                   page.put(QStringLiteral("Date and time"), page.left, y + 12, 100, body(13));
                   page.rule(page.left + 96, y + 28, page.left + 290, y + 28, 0.6, t().soft_ink);
                   page.put(QStringLiteral("Anything else today"), page.left + 310, y + 12, 140, body(13));
                   page.rule(page.left + 440, y + 28, page.right, y + 28, 0.6, t().soft_ink);
                 }});
  heading("How to fill in a sheet");
  int number = 0;
  for (const auto& step : cover.steps) {
    const QString words = words_of(step), count = QString::number(++number);
    const double height = page.height(words, page.width() - 24, body(13));
    all.push_back({height + 5, [&page, words, count](double y) {
                     page.put(count, page.left, y, 20, body(13, Weight::semi_bold));
                     page.put(words, page.left + 24, y, page.width() - 24, body(13));
                   }});
  }
  heading("What is judged");
  for (const auto& [name, judged] : cover.words) {
    const QString left = words_of(name), right = words_of(judged);
    const double height =
        std::max(page.height(left, 150, body(13, Weight::semi_bold)), page.height(right, page.width() - 160, body(13)));
    all.push_back({height + 5, [&page, left, right](double y) {
                     page.put(left, page.left, y, 150, body(13, Weight::semi_bold));
                     page.put(right, page.left + 160, y, page.width() - 160, body(13));
                   }});
  }
  heading("Take care");
  for (const auto& one : cover.cautions)
    text(words_of(one), {13, Weight::regular, t().caution, Qt::AlignLeft, 1.3}, 0, 4);
  paint_strips(page, all, 0, [] { return 0.0; });
}

void paint_guesses(PrintPage& page, const report::GuessSheet& guesses) {
  constexpr double name = 130, row = 44;
  const double saw = 150, which_x = page.left + name + saw + 24;
  std::vector<Strip> all;
  const auto head = [&] {
    double y = page.top;
    y += page.put(
             words_of(guesses.taster) + QStringLiteral(" · sitting\u00A0%1 · after the scores").arg(guesses.sitting),
             page.left, y, page.width(), {22, Weight::bold, t().ink, Qt::AlignLeft, 1.2}) +
         6;
    y += page.put(words_of(guesses.hint), page.left, y, page.width(), body(13)) + 14;
    const double one = page.put(words_of(guesses.saw), page.left + name, y, saw, body(13, Weight::semi_bold));
    const double two = page.put(words_of(guesses.which), which_x, y, page.right - which_x, body(13, Weight::semi_bold));
    y += std::max(one, two) + 6;
    page.rule(page.left, y, page.right, y, 1.2);
    return y - page.top;
  };
  all.push_back({head(), [](double) {}});
  for (const auto& line : guesses.rows)
    all.push_back({row, [&page, &line, name, saw, which_x](double y) {
                     page.put(words_of(line.pair), page.left, y + 13, name - 8, body(14, Weight::semi_bold));
                     double x = page.left + name;
                     for (const char* answer : {"yes", "no"})
                       x += page.tick(QString::fromLatin1(answer), x, y + 13, 13) + 22;
                     x = which_x;
                     for (const auto& answer : {words_of(line.left), QStringLiteral("no idea"), words_of(line.right)})
                       x += page.tick(answer, x, y + 13, 13) + 26;
                     page.rule(page.left, y + row, page.right, y + row, 0.8, t().line);
                   }});
  paint_strips(page, all, 0, head);
}

}  // namespace

int paint_score_sheets(const Sheets& sheets, const report::ScoreSheets& all, int pages) {
  PrintPage page(sheets, pages, sheet_margin, words_of(all.title));
  page.top = 38;
  bool begun = false;
  for (const auto& one : all.pages) {
    if (begun) page.next_page();
    begun = true;
    if (const auto* cover = std::get_if<report::SittingCover>(&one))
      paint_cover(page, *cover);
    else if (const auto* guesses = std::get_if<report::GuessSheet>(&one))
      paint_guesses(page, *guesses);
    else
      paint_sheet(page, std::get<report::PairSheet>(one));
  }
  if (!begun) page.put(QStringLiteral("No sheets here."), page.left, page.top, page.width(), {});
  return page.page();
}

}  // namespace likeleaf::ui
