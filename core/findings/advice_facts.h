#pragma once

#include "core/plan/advice.h"
#include "core/project/snapshot.h"

namespace core::findings {

/// What a project knows that its plan's advice needs: the step that players notice, and the scatter
/// of the shots read so far. Errors: as noticeableStep() and report::summarise().
Result<plan::AdviceFacts> adviceFacts(const project::Snapshot& snapshot);

}  // namespace core::findings
