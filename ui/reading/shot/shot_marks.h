#pragma once

#include <optional>

#include "core/spin/mark.h"

/// Edits of the marks of a shot, one a key. Each gives the marks afterwards; keys toggle, so that
/// the same key takes back what it did.
namespace ui::reading {

/// The return at this frame: the nearest one there, or a bracket that has the frame at either end.
[[nodiscard]] const core::spin::ReturnMark* returnAt(const core::spin::MarkSet& marks,
                                                     core::timebase::FrameIndex frame);
[[nodiscard]] const core::spin::AngleMark* angleAt(const core::spin::MarkSet& marks,
                                                   core::timebase::FrameIndex frame);

/// The start goes here, or away if it is here already. A return at this frame makes way.
[[nodiscard]] core::spin::MarkSet withStartToggled(core::spin::MarkSet marks,
                                                   core::timebase::FrameIndex frame);
/// A nearest return here, or none if there is one already; a bracket here becomes a nearest return.
[[nodiscard]] core::spin::MarkSet withReturnToggled(core::spin::MarkSet marks,
                                                    core::timebase::FrameIndex frame,
                                                    std::optional<int> turns);
/// A bracket between two frames, or none if it is there already; takes the place of nearest returns
/// at its ends.
[[nodiscard]] core::spin::MarkSet withBracketToggled(core::spin::MarkSet marks,
                                                     core::timebase::FrameIndex before,
                                                     core::timebase::FrameIndex after,
                                                     std::optional<int> turns);
/// Another turn count for the return at this frame; if there is none here, for the last return.
[[nodiscard]] core::spin::MarkSet withTurns(core::spin::MarkSet marks,
                                            core::timebase::FrameIndex frame, int turns);
/// The attitude in this frame, in place of an earlier one.
[[nodiscard]] core::spin::MarkSet withAngle(core::spin::MarkSet marks,
                                            core::timebase::FrameIndex frame,
                                            core::Radians counterClockwise);
[[nodiscard]] core::spin::MarkSet withoutAngle(core::spin::MarkSet marks,
                                               core::timebase::FrameIndex frame);

}  // namespace ui::reading
