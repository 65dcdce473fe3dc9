#pragma once

#include <QString>

#include "core/doubts/find_doubts.h"
#include "core/findings/findings.h"
#include "core/project/snapshot.h"

/// How far the work is, step by step.
namespace ui::shell {

struct StepState {
    enum class Need { Nothing, Question, Grave };
    double share{};  ///< of the work that is done, 0 to 1; 1 closes the ring
    Need need{Need::Nothing};
    QString words;  ///< "57 of 96 read"

    bool operator==(const StepState&) const = default;
};

[[nodiscard]] StepState planState(const core::project::Snapshot& snapshot);
[[nodiscard]] StepState footageState(const core::project::Snapshot& snapshot);
[[nodiscard]] StepState readingState(const core::project::Snapshot& snapshot);
/// doubts: null while they are not known.
[[nodiscard]] StepState doubtsState(const core::doubts::Doubts* doubts);
/// findings: null while they are not known.
[[nodiscard]] StepState findingsState(const core::project::Snapshot& snapshot,
                                      const core::findings::Findings* findings);
/// Whether what was published last is still what is found; both null while they are not known.
[[nodiscard]] StepState publishState(const core::project::Snapshot& snapshot,
                                     const core::findings::Findings* findings);

}  // namespace ui::shell
