#include "ui/theme/theme.h"

#include <QApplication>
#include <QFontDatabase>
#include <QPalette>

#include "ui/theme/paper_style.h"

namespace likeleaf::ui {
namespace {

const Tokens* current = nullptr;

constexpr const char* family = "Likeleaf Sans";

}  // namespace

const Tokens& light_tokens() {
  static const Tokens t{QColor("#F6F2EA"), QColor("#FDFBF6"), QColor("#22262B"), QColor("#5F605D"), QColor("#D9D2C4"),
                        QColor("#EBE5D8"), QColor("#2F5D50"), QColor("#FDFBF6"), QColor("#8A5A00"), QColor("#34508C"),
                        QColor("#C4622D"), QColor("#34508C"), QColor("#A84C1B")};
  return t;
}

const Tokens& dark_tokens() {
  static const Tokens t{QColor("#1B1917"), QColor("#24211E"), QColor("#ECE6DA"), QColor("#B3AC9F"), QColor("#47423B"),
                        QColor("#332F2A"), QColor("#8FC4B2"), QColor("#14211D"), QColor("#E0B25A"), QColor("#8FA8DE"),
                        QColor("#E58B58"), QColor("#A3B8E6"), QColor("#EFA57B")};
  return t;
}

const Tokens& tokens() {
  return current ? *current : light_tokens();
}

void load_fonts() {
  static bool loaded = false;
  if (loaded) return;
  loaded = true;
  for (const char* file : {"Regular", "Medium", "SemiBold", "Bold"})
    QFontDatabase::addApplicationFont(QStringLiteral(":/fonts/LikeleafSans-%1.otf").arg(QLatin1String(file)));
}

QFont face(double pixels, Weight weight) {
  QFont font(QString::fromLatin1(family));
  font.setPixelSize(qRound(pixels));
  static constexpr QFont::Weight weights[] = {QFont::Normal, QFont::Medium, QFont::DemiBold, QFont::Bold};
  font.setWeight(weights[static_cast<int>(weight)]);
  return font;
}

void apply_theme(QApplication& application, bool dark) {
  current = dark ? &dark_tokens() : &light_tokens();
  const Tokens& t = *current;
  load_fonts();
  QApplication::setStyle(new PaperStyle);
  QPalette p;
  p.setColor(QPalette::Window, t.paper);
  p.setColor(QPalette::WindowText, t.ink);
  p.setColor(QPalette::Base, t.sheet);
  p.setColor(QPalette::AlternateBase, t.paper);
  p.setColor(QPalette::Text, t.ink);
  p.setColor(QPalette::Button, t.sheet);
  p.setColor(QPalette::ButtonText, t.ink);
  p.setColor(QPalette::BrightText, t.caution);
  p.setColor(QPalette::Highlight, t.action);
  p.setColor(QPalette::HighlightedText, t.on_action);
  p.setColor(QPalette::PlaceholderText, t.soft_ink);
  p.setColor(QPalette::ToolTipBase, t.sheet);
  p.setColor(QPalette::ToolTipText, t.ink);
  p.setColor(QPalette::Link, t.action);
  p.setColor(QPalette::Mid, t.line);
  p.setColor(QPalette::Midlight, t.line);
  p.setColor(QPalette::Dark, t.line);
  application.setPalette(p);
  application.setFont(face(15));
}

}  // namespace likeleaf::ui
