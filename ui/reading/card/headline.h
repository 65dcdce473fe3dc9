#pragma once

#include <QList>
#include <QString>
#include <optional>

#include "ui/reading/card/reading_words.h"
#include "ui/reading/shot/shot_view.h"

/// The one number of a shot, and what would help where there is none.
namespace ui::reading {

/// How a number was read.
enum class Method { Pictures, Marks };

/// What each method says. Absent: it has no number.
struct MethodNumber {
    core::Rpm rate;
    core::Rpm sigma;
    core::Interval<core::Rpm> interval95;
};
[[nodiscard]] std::optional<MethodNumber> numberOf(const ShotView& view, Method method);

/// The method whose number Keep keeps: that of the marks once a return was set by hand, else that
/// of the pictures, unless the reader has chosen. Absent when there is nothing to keep: also when
/// returns were set by hand and give no number, whatever the pictures say.
[[nodiscard]] std::optional<Method> methodToKeep(const ShotView& view,
                                                 std::optional<Method> chosen);

struct Headline {
    QString number;          ///< "2368.3"; empty: the words stand in its place
    QString words;           ///< "No reading"
    QString interval;        ///< "95 %: 2364.1 to 2372.4 rpm"
    QString source;          ///< "From the pictures, not kept yet"
    bool isKept{};           ///< it is the number in the findings
    bool isSaidOtherwise{};  ///< the method that Keep would keep gives another one now
};
/// kept: the counting reading of the shot, or null.
[[nodiscard]] Headline headlineOf(const ShotView& view, const core::project::Reading* kept,
                                  std::optional<Method> toKeep);

/// Why there is no number, and what to do: a sentence or two.
[[nodiscard]] QString whyNoNumber(const ShotView& view);

/// What would help a shot without a number.
struct Help {
    enum class Kind {
        PointAtBall,
        SetUp,          ///< of the filming day
        Clock,          ///< of the clip
        UseFlightRate,  ///< for all clips with the same wrong clock
        UseRate,        ///< for the length of the rows
    };
    Kind kind{};
    QString text;
    double rpm{};  ///< of UseRate
};
/// facts: what is known of the filming day; null when it is gone. sameClock: clips that were filmed
/// alike and have the clock of this one, itself among them.
[[nodiscard]] QList<Help> helpsFor(const ShotView& view, const core::project::Session* facts,
                                   std::size_t sameClock = 1);

/// Whether marks and pictures agree; absent unless both have a number.
[[nodiscard]] std::optional<Remark> agreementOf(const ShotView& view);

}  // namespace ui::reading
