#include <fmt/format.h>

#include "core/base/overload.h"
#include "core/base/terminal_text.h"
#include "core/report/document.h"

namespace likeleaf::report {
namespace {

/// For text and for attribute values in quotes. Control characters have no meaning in HTML and break a standalone SVG.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : terminal_text(text)) switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  return out;
}

/// The page itself forbids scripts, plug-ins and whatever lies outside it, should anything slip through the escaping.
constexpr std::string_view content_policy =
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

constexpr std::string_view sheet_style = R"(
:root{--paper:#FDFBF6;--ink:#22262B;--soft:#5F605D;--line:#D9D2C4;--green:#2F5D50;--caution:#8A5A00}
@media (prefers-color-scheme:dark){:root{--paper:#1E1C19;--ink:#ECE6DA;--soft:#B3AC9F;--line:#45403A;--green:#8FC4B2;--caution:#E0B25A}}
*{box-sizing:border-box}body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 "Inter","Noto Sans",system-ui,sans-serif;font-variant-numeric:tabular-nums}
main{max-width:46rem;margin:0 auto;padding:2rem 1.25rem 4rem}header{display:flex;justify-content:space-between;color:var(--soft);font-size:.85rem}
h1{font-size:1.9rem;line-height:1.2;margin:1rem 0 .75rem}h2{font-size:1.1rem;margin:1.75rem 0 .4rem}h3{font-size:1rem;margin:1.25rem 0 .3rem}
.lead{font-size:1.1rem}.soft{color:var(--soft)}.caution{color:var(--caution)}hr{border:0;border-top:2px solid var(--ink);margin:1rem 0}
aside{border-left:3px solid var(--green);padding-left:.9rem;margin:1rem 0}aside b{display:block}
figure{margin:1rem 0;background:#FDFBF6;border-radius:6px}figure svg{width:100%;height:auto;display:block}figcaption{color:#5F605D;font-size:.85rem;padding:.25rem .5rem}
.columns{display:grid;grid-template-columns:1fr 1fr;gap:0 2rem}@media (max-width:36rem){.columns{grid-template-columns:1fr}}
.wide{overflow-x:auto}table{border-collapse:collapse;font-size:.8rem;margin:.5rem 0 1rem}caption{text-align:left;font-weight:600;padding:.3rem 0}
th,td{padding:.25rem .6rem .25rem 0;border-bottom:1px solid var(--line);text-align:left;vertical-align:top}th.n,td.n{text-align:right;white-space:nowrap}
.turn{border-top:1px dashed var(--line);margin:3rem 0 2rem}footer{color:var(--soft);font-size:.85rem;margin-top:3rem;border-top:1px solid var(--line);padding-top:.5rem}
@media print{.turn{break-before:page;border:0;margin:0}.turn.front{break-before:right}}
)";

std::string list(const std::vector<std::string>& items) {
  std::string out = "<ol>";
  for (const auto& item : items) out += "<li>" + escaped(item) + "</li>";
  return out + "</ol>\n";
}

std::string table(const Table& t) {
  std::string out = "<div class=\"wide\"><table>";
  if (!t.caption.empty()) out += "<caption>" + escaped(t.caption) + "</caption>";
  const auto cls = [&](std::size_t i) { return i < t.numeric.size() && t.numeric[i] ? " class=\"n\"" : ""; };
  out += "<thead><tr>";
  for (std::size_t i = 0; i < t.columns.size(); ++i)
    out += fmt::format("<th scope=\"col\"{}>{}</th>", cls(i), escaped(t.columns[i]));
  out += "</tr></thead><tbody>";
  for (const auto& row : t.rows) {
    out += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i) out += fmt::format("<td{}>{}</td>", cls(i), escaped(row[i]));
    out += "</tr>";
  }
  return out + "</tbody></table></div>\n";
}

std::string block_html(const Block& block, const FigureSvg& figure) {
  return std::visit(
      Overload{
          [](const Heading& h) { return fmt::format("<h{0}>{1}</h{0}>\n", h.level, escaped(h.text)); },
          [](const Paragraph& p) {
            static constexpr std::string_view names[] = {"", "lead", "soft", "caution"};
            const auto name = names[static_cast<std::size_t>(p.tone)];
            return name.empty() ? fmt::format("<p>{}</p>\n", escaped(p.text))
                                : fmt::format("<p class=\"{}\">{}</p>\n", name, escaped(p.text));
          },
          [](const Steps& s) { return list(s.items); }, [](const Table& t) { return table(t); },
          [&](const Figure& f) {
            return fmt::format("<figure role=\"img\" aria-label=\"{}\">{}{}</figure>\n", escaped(f.alt),
                               figure ? figure(f) : "",
                               f.caption.empty() ? "" : "<figcaption>" + escaped(f.caption) + "</figcaption>");
          },
          [](const Aside& a) { return fmt::format("<aside><b>{}</b>{}</aside>\n", escaped(a.title), escaped(a.text)); },
          [](const Rule&) { return std::string("<hr>\n"); },
          [](const Columns& c) {
            std::string out =
                "<div class=\"columns\"><section><h2>" + escaped(c.left_title) + "</h2>" + list(c.left_steps);
            for (const auto& text : c.left_cautions) out += "<p class=\"caution\">" + escaped(text) + "</p>";
            out += "</section><section><h2>" + escaped(c.right_title) + "</h2>";
            for (const auto& text : c.right_paragraphs) out += "<p>" + escaped(text) + "</p>";
            return out + "</section></div>\n";
          },
          [](const PageBreak& b) {
            return std::string(b.right_hand ? "<div class=\"turn front\"></div>\n" : "<div class=\"turn\"></div>\n");
          }},
      block);
}

std::string block_text(const Block& block) {
  std::string out;
  const auto line = [&](const std::string& text) { out += text + "\n"; };
  std::visit(Overload{[&](const Heading& h) { line(h.text); }, [&](const Paragraph& p) { line(p.text); },
                      [&](const Steps& s) {
                        for (std::size_t i = 0; i < s.items.size(); ++i) line(fmt::format("{} {}", i + 1, s.items[i]));
                      },
                      [&](const Table& t) {
                        line(t.caption);
                        line(fmt::format("{}", fmt::join(t.columns, " | ")));
                        for (const auto& row : t.rows) line(fmt::format("{}", fmt::join(row, " | ")));
                      },
                      [&](const Figure& f) { line(f.alt); }, [&](const Aside& a) { line(a.title + ": " + a.text); },
                      [&](const Rule&) {},
                      [&](const Columns& c) {
                        line(c.left_title);
                        for (std::size_t i = 0; i < c.left_steps.size(); ++i)
                          line(fmt::format("{} {}", i + 1, c.left_steps[i]));
                        for (const auto& t : c.left_cautions) line(t);
                        line(c.right_title);
                        for (const auto& t : c.right_paragraphs) line(t);
                      },
                      [&](const PageBreak&) { line("\f"); }},
             block);
  return out;
}

}  // namespace

std::string to_html(const Document& document, const FigureSvg& figure) {
  std::string out = fmt::format(
      "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta http-equiv=\"Content-Security-Policy\" "
      "content=\"{}\"><meta name=\"viewport\" "
      "content=\"width=device-width,initial-scale=1\"><meta name=\"generator\" "
      "content=\"{}\"><title>{}</title><style>{}</style></head>\n<body><main>\n"
      "<header><span>{}</span><span>{}</span></header>\n",
      content_policy, escaped(document.meta.program), escaped(document.meta.title), sheet_style,
      escaped(document.meta.house), escaped(document.meta.label));
  for (const auto& block : document.blocks) out += block_html(block, figure);
  return out + fmt::format("<footer>{} · {}</footer>\n</main></body></html>\n", escaped(document.meta.foot),
                           escaped(document.meta.program));
}

std::string to_text(const Document& document) {
  std::string out;
  for (const auto& block : document.blocks) out += block_text(block);
  return out;
}

}  // namespace likeleaf::report
