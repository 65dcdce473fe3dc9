#pragma once

#include <QString>
#include <vector>

#include "core/doubts/find_doubts.h"
#include "core/project/snapshot.h"

/// What is open before others see the findings.
namespace ui::publish {

struct OpenPoint {
    enum class Kind { Grave, Question, Note, Done };
    /// Where it is settled.
    enum class Way { None, Footage, Reading, Doubts, Findings };
    Kind kind{Kind::Done};
    QString title;
    QString detail;
    Way way{Way::None};
    bool operator==(const OpenPoint&) const = default;
};

/// Worst first, what is settled last. doubts: null while they are being looked for, which is a
/// point of its own.
[[nodiscard]] std::vector<OpenPoint> openPoints(const core::project::Snapshot& snapshot,
                                                const core::doubts::Doubts* doubts);
/// Those that are not done.
[[nodiscard]] std::size_t countOpen(const std::vector<OpenPoint>& points);

}  // namespace ui::publish
