#pragma once
// Runs the built program and keeps what it printed.
#include <QDir>
#include <QProcess>
#include <QProcessEnvironment>
#include <QString>
#include <QStringList>
#include <QTemporaryDir>

namespace likeleaf::test {

struct Ran {
  int code = -1;
  QString out, err;
};

inline Ran run(const QStringList& arguments) {
  QProcess p;
  QProcessEnvironment env = QProcessEnvironment::systemEnvironment();
  env.remove(QStringLiteral("DISPLAY"));
  env.insert(QStringLiteral("XDG_RUNTIME_DIR"), QStringLiteral("/tmp"));
  env.remove(QStringLiteral("QT_QPA_PLATFORM"));
  p.setProcessEnvironment(env);
  p.start(QStringLiteral(LIKELEAF_PROGRAM), arguments);
  if (!p.waitForFinished(120'000)) return {-2, {}, p.errorString()};
  return {p.exitStatus() == QProcess::NormalExit ? p.exitCode() : -3, QString::fromUtf8(p.readAllStandardOutput()),
          QString::fromUtf8(p.readAllStandardError())};
}

/// A folder with a space and an accent in its name, with the sample book in it.
class SampleFolder {
 public:
  SampleFolder() : dir_(QDir::tempPath() + QStringLiteral("/like leaf é XXXXXX")) {
    made_ = run({QStringLiteral("sample"), QStringLiteral("--out"), book()});
  }
  [[nodiscard]] QString book() const { return dir_.filePath(QStringLiteral("sample.leafbook")); }
  [[nodiscard]] QString file(const QString& name) const { return dir_.filePath(name); }
  [[nodiscard]] const Ran& made() const { return made_; }

 private:
  QTemporaryDir dir_;
  Ran made_;
};

}  // namespace likeleaf::test
