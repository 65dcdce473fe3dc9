#include "core/intake/agreed_readings.h"

#include <cmath>

#include "core/base/words.h"
#include "core/intake/shot_pictures.h"
#include "core/reading/project_reading.h"

namespace core::intake {
namespace {

constexpr double kCoverageFactor = 2.0;

/// The reading of the marks, or why the shot is left out.
Result<project::Reading> agreedReading(const project::Store& store, project::ShotId id) {
    const auto leaveOut = [](std::string_view why) {
        return fail(ErrorCode::InvalidInput, saidText(why));
    };
    const auto snapshot = store.snapshot();
    const auto* shot = snapshot->shots.find(id);
    if (shot == nullptr) {
        return leaveOut(toSay("it is no longer in the project"));
    }
    if (shot->standing != project::ShotStanding::Open) {
        return leaveOut(toSay("it is decided already"));
    }
    BOOST_OUTCOME_TRY(frames, store.clipFrames(shot->clip));
    const auto marks = reading::readMarks(*snapshot, *shot, *frames);
    if (!marks) {
        return leaveOut(toSay("its marks give no reading"));
    }
    const auto request = reading::requestOf(*snapshot, id);
    const auto pictures = request ? keptReading(store, id, request.value())
                                  : std::optional<reading::PictureReading>{};
    if (!pictures) {
        return leaveOut(toSay("its pictures were not read"));
    }
    if (!pictures->rate) {
        return leaveOut(toSay("its pictures give no reading"));
    }
    if (!doAgree({marks.value().estimate, marks.value().standardUncertainty}, *pictures->rate)) {
        return leaveOut(toSay("marks and pictures differ"));
    }
    return reading::makeMarksReading(*snapshot, *shot, *frames, marks.value());
}

}  // namespace

bool doAgree(const Measured<Rpm>& one, const Measured<Rpm>& other) {
    return std::abs(one.value.rpm - other.value.rpm) <=
           kCoverageFactor * std::hypot(one.sigma.rpm, other.sigma.rpm);
}

Result<AgreedReadings> agreedReadings(const project::Store& store,
                                      std::span<const project::ShotId> shots) {
    AgreedReadings all;
    for (const project::ShotId shot : shots) {
        auto reading = agreedReading(store, shot);
        if (reading) {
            all.readings.push_back(std::move(reading).value());
        } else if (reading.error().code == ErrorCode::InvalidInput) {
            all.leftOut.push_back({shot, reading.error().message});
        } else {
            return reading.error();
        }
    }
    return all;
}

}  // namespace core::intake
