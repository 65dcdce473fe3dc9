#include "ui/reading/shot/shot_marks.h"

#include <algorithm>

namespace ui::reading {

using core::spin::AngleMark;
using core::spin::MarkSet;
using core::spin::ReturnMark;
using core::timebase::FrameIndex;

namespace {

bool touches(const ReturnMark& mark, FrameIndex frame) {
    return mark.frame == frame ||
           (mark.kind == ReturnMark::Kind::Bracket && mark.frameAfter == frame);
}

void insertInOrder(MarkSet& marks, const ReturnMark& mark) {
    const auto at = std::find_if(marks.returns.begin(), marks.returns.end(),
                                 [&](const ReturnMark& r) { return r.frame > mark.frame; });
    marks.returns.insert(at, mark);
}

}  // namespace

const ReturnMark* returnAt(const MarkSet& marks, FrameIndex frame) {
    const auto found = std::find_if(marks.returns.begin(), marks.returns.end(),
                                    [&](const ReturnMark& r) { return touches(r, frame); });
    return found == marks.returns.end() ? nullptr : &*found;
}

const AngleMark* angleAt(const MarkSet& marks, FrameIndex frame) {
    const auto found = std::find_if(marks.angles.begin(), marks.angles.end(),
                                    [&](const AngleMark& a) { return a.frame == frame; });
    return found == marks.angles.end() ? nullptr : &*found;
}

MarkSet withStartToggled(MarkSet marks, FrameIndex frame) {
    if (marks.start && marks.start->frame == frame) {
        marks.start.reset();
        return marks;
    }
    marks.start = core::spin::StartMark{.frame = frame, .spreadIntervals = {}};
    std::erase_if(marks.returns, [&](const ReturnMark& r) { return touches(r, frame); });
    return marks;
}

MarkSet withReturnToggled(MarkSet marks, FrameIndex frame, std::optional<int> turns) {
    const ReturnMark* here = returnAt(marks, frame);
    const bool takesBack = here != nullptr && here->kind == ReturnMark::Kind::Nearest;
    std::erase_if(marks.returns, [&](const ReturnMark& r) { return touches(r, frame); });
    if (!takesBack) {
        insertInOrder(marks, ReturnMark::nearest(frame, turns));
    }
    return marks;
}

MarkSet withBracketToggled(MarkSet marks, FrameIndex before, FrameIndex after,
                           std::optional<int> turns) {
    const bool takesBack =
        std::any_of(marks.returns.begin(), marks.returns.end(), [&](const ReturnMark& r) {
            return r.kind == ReturnMark::Kind::Bracket && r.frame == before &&
                   r.frameAfter == after;
        });
    std::erase_if(marks.returns,
                  [&](const ReturnMark& r) { return touches(r, before) || touches(r, after); });
    if (!takesBack) {
        insertInOrder(marks, ReturnMark::between(before, after, turns));
    }
    return marks;
}

MarkSet withTurns(MarkSet marks, FrameIndex frame, int turns) {
    auto at = std::find_if(marks.returns.begin(), marks.returns.end(),
                           [&](const ReturnMark& r) { return touches(r, frame); });
    if (at == marks.returns.end() && !marks.returns.empty()) {
        at = marks.returns.end() - 1;
    }
    if (at != marks.returns.end()) {
        at->turns = turns;
    }
    return marks;
}

MarkSet withAngle(MarkSet marks, FrameIndex frame, core::Radians counterClockwise) {
    for (AngleMark& mark : marks.angles) {
        if (mark.frame == frame) {
            mark.angle = counterClockwise;
            return marks;
        }
    }
    const auto at = std::find_if(marks.angles.begin(), marks.angles.end(),
                                 [&](const AngleMark& a) { return a.frame > frame; });
    AngleMark mark;
    mark.frame = frame;
    mark.angle = counterClockwise;
    marks.angles.insert(at, mark);
    return marks;
}

MarkSet withoutAngle(MarkSet marks, FrameIndex frame) {
    std::erase_if(marks.angles, [&](const AngleMark& a) { return a.frame == frame; });
    return marks;
}

}  // namespace ui::reading
