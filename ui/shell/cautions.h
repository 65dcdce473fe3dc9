#pragma once

#include <QString>

namespace ui::shell {

/// What a tester should know before anybody swings. Plain text, one paragraph a line.
[[nodiscard]] QString cautionsText();

}  // namespace ui::shell
