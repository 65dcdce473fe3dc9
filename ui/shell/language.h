#pragma once

#include <QString>

namespace ui::shell {

/// The language that the person chose in View: "en", "de", or empty for that of the system
/// (LC_ALL, LC_MESSAGES, LANG, LANGUAGE). It holds from the next start on.
[[nodiscard]] QString keptLanguage();
void keepLanguage(const QString& language);

/// Lets window, Qt's own texts and core speak this language; empty: that of the system, and English
/// where there are no words of it. Once, after the application is made and before anything is said.
void speak(const QString& language);

}  // namespace ui::shell
