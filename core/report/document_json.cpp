#include "core/report/document_json.h"

#include "core/codec/shape.h"

namespace likeleaf::codec {

using report::Axis;
using report::Block;

template <>
struct Words<evidence::Word> {
  static constexpr std::array list{"moved", "held", "depends", "open", "noted"};
};
template <>
struct Words<report::Paragraph::Tone> {
  static constexpr std::array list{"plain", "lead", "soft", "caution"};
};

/// The shortest digits that read back as the same number; never infinite or not a number.
template <>
struct Value<double> {
  static json write(double x) { return x; }
  static Result<double> read(const json& value, const std::string& pointer) {
    if (value.is_number()) return value.get<double>();
    return fail(ErrorKind::malformed, last_key(pointer), value.type_name(), "a number", pointer);
  }
};

template <>
struct Shape<evidence::Interval> {
  static void describe(auto& v, auto& x) {
    v.need("low", x.low);
    v.need("high", x.high);
    v.need("level", x.level);
  }
};
template <>
struct Shape<report::Tick> {
  static void describe(auto& v, auto& x) {
    v.need("at", x.at);
    v.need("label", x.label);
  }
};
template <>
struct Shape<Axis> {
  static void describe(auto& v, auto& x) {
    v.need("low", x.low);
    v.need("high", x.high);
    v.need("ticks", x.ticks);
    v.need("low_end", x.low_end);
    v.need("high_end", x.high_end);
    v.need("middle", x.middle);
  }
};
template <>
struct Shape<report::IntervalRow> {
  static void describe(auto& v, auto& x) {
    v.need("label", x.label);
    v.unless_empty("part", x.part);
    v.need("word", x.word);
    v.need("deciding", x.deciding);
    v.need("estimate", x.estimate);
    v.maybe("interval", x.interval);
    v.need("margin", x.margin);
    v.need("said", x.said);
  }
};
template <>
struct Shape<report::IntervalPlot> {
  static void describe(auto& v, auto& x) {
    v.need("title", x.title);
    v.need("rows", x.rows);
    v.need("axis", x.axis);
    v.need("one_margin", x.one_margin);
  }
};
template <>
struct Shape<report::PairedRow> {
  static void describe(auto& v, auto& x) {
    v.need("label", x.label);
    v.need("a", x.a);
    v.need("b", x.b);
    v.need("sheets", x.sheets);
  }
};
template <>
struct Shape<report::PairedPlot> {
  static void describe(auto& v, auto& x) {
    v.need("title", x.title);
    v.need("a_label", x.a_label);
    v.need("b_label", x.b_label);
    v.need("rows", x.rows);
    v.need("axis", x.axis);
  }
};
template <>
struct Shape<report::BandRow> {
  static void describe(auto& v, auto& x) {
    v.need("label", x.label);
    v.need("a", x.a);
    v.need("b", x.b);
  }
};
template <>
struct Shape<report::RegisterPlot> {
  static void describe(auto& v, auto& x) {
    v.need("title", x.title);
    v.need("a_label", x.a_label);
    v.need("b_label", x.b_label);
    v.need("rows", x.rows);
    v.need("axis", x.axis);
  }
};
template <>
struct Shape<report::Heading> {
  static constexpr const char* word = "heading";
  static void describe(auto& v, auto& x) {
    v.need("text", x.text);
    v.need("level", x.level);
  }
};
template <>
struct Shape<report::Paragraph> {
  static constexpr const char* word = "paragraph";
  static void describe(auto& v, auto& x) {
    v.need("text", x.text);
    v.need("tone", x.tone);
  }
};
template <>
struct Shape<report::Steps> {
  static constexpr const char* word = "steps";
  static void describe(auto& v, auto& x) { v.need("items", x.items); }
};
template <>
struct Shape<report::Table> {
  static constexpr const char* word = "table";
  static void describe(auto& v, auto& x) {
    v.need("caption", x.caption);
    v.need("columns", x.columns);
    v.need("numeric", x.numeric);
    v.need("rows", x.rows);
    v.unless_empty("bench", x.bench);
  }
};
template <>
struct Shape<report::Aside> {
  static constexpr const char* word = "aside";
  static void describe(auto& v, auto& x) {
    v.need("title", x.title);
    v.need("text", x.text);
  }
};
template <>
struct Shape<report::Rule> {
  static constexpr const char* word = "rule";
  static void describe(auto&, auto&) {}
};
template <>
struct Shape<report::Columns> {
  static constexpr const char* word = "columns";
  static void describe(auto& v, auto& x) {
    v.need("left_title", x.left_title);
    v.need("left_steps", x.left_steps);
    v.need("left_cautions", x.left_cautions);
    v.need("right_title", x.right_title);
    v.need("right_paragraphs", x.right_paragraphs);
  }
};
template <>
struct Shape<report::PageBreak> {
  static constexpr const char* word = "page_break";
  static void describe(auto& v, auto& x) { v.unless_empty("right_hand", x.right_hand); }
};
template <>
struct Shape<report::Meta> {
  static void describe(auto& v, auto& x) {
    v.need("title", x.title);
    v.need("house", x.house);
    v.need("label", x.label);
    v.need("foot", x.foot);
    v.need("program", x.program);
    v.unless_empty("mark", x.mark);
  }
};

using PlotData = decltype(report::Figure::data);

template <>
struct Value<PlotData> {
  static json write(const PlotData& data) {
    static constexpr std::array words{"interval", "paired", "register"};
    return json::object({{words.at(data.index()), std::visit([](const auto& p) { return written(p); }, data)}});
  }
  static Result<PlotData> read(const json& value, const std::string& pointer) {
    if (value.is_object() && value.size() == 1) {
      const auto& key = value.begin().key();
      const auto at = pointer_to(pointer, key);
      const auto any = [](auto plot) { return PlotData(std::move(plot)); };
      if (key == "interval") return Value<report::IntervalPlot>::read(value.front(), at).map(any);
      if (key == "paired") return Value<report::PairedPlot>::read(value.front(), at).map(any);
      if (key == "register") return Value<report::RegisterPlot>::read(value.front(), at).map(any);
    }
    return fail(ErrorKind::malformed, "data", value.type_name(), "interval, paired or register", pointer);
  }

 private:
  template <class Plot>
  static json written(const Plot& plot) {
    return Value<Plot>::write(plot);
  }
};

template <>
struct Shape<report::Figure> {
  static constexpr const char* word = "figure";
  static void describe(auto& v, auto& x) {
    v.need("data", x.data);
    v.need("caption", x.caption);
    v.need("alt", x.alt);
  }
};

template <>
struct Value<Block> {
  static json write(const Block& block) {
    return std::visit(
        []<class T>(const T& one) {
          return json::object({{Shape<T>::word, Value<T>::write(one)}});
        },
        block);
  }
  static Result<Block> read(const json& value, const std::string& pointer) {
    if (value.is_object() && value.size() == 1) return read_any<0>(value, pointer);
    return fail(ErrorKind::malformed, "block", value.type_name(), "an object with one kind", pointer);
  }

 private:
  template <std::size_t i>
  static Result<Block> read_any(const json& value, const std::string& pointer) {
    if constexpr (i == std::variant_size_v<Block>) {
      return fail(ErrorKind::malformed, "block", shown_value(value.begin().key()), "a kind that is known", pointer);
    } else {
      using T = std::variant_alternative_t<i, Block>;
      if (value.begin().key() != Shape<T>::word) return read_any<i + 1>(value, pointer);
      return Value<T>::read(value.front(), pointer_to(pointer, Shape<T>::word)).map([](T one) {
        return Block(std::move(one));
      });
    }
  }
};

}  // namespace likeleaf::codec

namespace likeleaf::report {
namespace {
constexpr int shape = 1;
}  // namespace

std::string document_text(const Document& document) {
  return canonical_text({{"shape", shape},
                         {"meta", codec::Value<Meta>::write(document.meta)},
                         {"blocks", codec::Value<std::vector<Block>>::write(document.blocks)}});
}

Result<Document> read_document(std::string_view text) {
  const auto parsed = parse_document(text);
  if (!parsed) return tl::unexpected<Error>(parsed.error());
  ObjectReader reader(*parsed, "");
  std::int64_t found = 0;
  Document document;
  reader.need_as("shape", found, [](const nlohmann::json& v, const std::string& p) { return read_whole(v, p, 1); });
  if (reader.good() && found > shape)
    return fail(ErrorKind::newer_version, "report", std::to_string(found), "a report of this program or an older one");
  reader.need_as("meta", document.meta, &codec::Value<Meta>::read);
  reader.need_as("blocks", document.blocks, &codec::Value<std::vector<Block>>::read);
  if (auto done = reader.done(); !done) return tl::unexpected<Error>(done.error());
  return document;
}

}  // namespace likeleaf::report
