#include "ui/reading/shot/shot_reading.h"

#include <QCoreApplication>

#include "core/reading/project_reading.h"
#include "ui/reading/card/reading_words.h"

namespace ui::reading {
namespace {

bool hasEnoughMarks(const core::spin::MarkSet& marks) {
    return (marks.start && !marks.returns.empty()) || marks.angles.size() >= 2;
}

}  // namespace

void readMarksOf(ShotView& view, const core::project::Snapshot& snapshot,
                 const core::project::ClipFrames& frames) {
    // As kept, not as cut to the clip for drawing; the marks may be those of a second reading.
    const core::project::Shot* kept = snapshot.shots.find(view.shot.id);
    // An unsettled clock is said at once, not only after the marks are made.
    if (kept == nullptr || (!hasEnoughMarks(view.shot.marks) && view.clip.clock)) {
        return;
    }
    core::project::Shot shot = *kept;
    shot.marks = view.shot.marks;
    auto reading = core::reading::readMarks(snapshot, shot, frames);
    if (reading) {
        view.reading = std::move(reading).value();
    } else {
        view.trouble = QString::fromStdString(reading.error().message);
    }
}

core::Result<void> keepShot(core::project::Store& store, const ShotView& view) {
    const auto snapshot = store.snapshot();
    const core::project::Shot* shot = snapshot->shots.find(view.shot.id);
    if (shot == nullptr || !view.reading) {
        const QString why = view.trouble.isEmpty() ? nextStepOf(view) : view.trouble;
        const QString text =
            QCoreApplication::translate("ui::reading::ShotReading", "Nothing to keep yet. %1")
                .arg(why);
        return core::fail(core::ErrorCode::InvalidInput, text.toStdString());
    }
    core::project::Shot read = *shot;
    read.marks = view.shot.marks;
    const auto reading =
        core::reading::makeMarksReading(*snapshot, read, *view.frames, *view.reading);
    if (view.second) {
        BOOST_OUTCOME_TRY(store.keepSecondReading(view.second->id, reading));
    } else {
        BOOST_OUTCOME_TRY(store.keepReading(reading));
    }
    return core::ok();
}

core::Result<void> keepPictureReading(core::project::Store& store, const ShotView& view) {
    const auto snapshot = store.snapshot();
    const core::project::Shot* shot = snapshot->shots.find(view.shot.id);
    const auto* read = view.pictureReading();
    if (shot == nullptr || read == nullptr) {
        return core::fail(core::ErrorCode::InvalidInput,
                          QCoreApplication::translate("ui::reading::ShotReading",
                                                      "There is no reading from the pictures to "
                                                      "keep.")
                              .toStdString());
    }
    BOOST_OUTCOME_TRY(store.keepReading(
        core::reading::makeFitReading(*snapshot, *shot, view.proposal->request, *read)));
    return core::ok();
}

}  // namespace ui::reading
