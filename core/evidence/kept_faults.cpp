#include "core/evidence/kept_faults.h"

#include "core/base/words.h"
#include "core/evidence/picture_codec.h"
#include "core/reading/inputs_json.h"

namespace core::evidence {
namespace {

Result<void> checkInputs(const project::Reading& reading) {
    if (reading.method == project::ReadingMethod::Marks) {
        BOOST_OUTCOME_TRY(reading::marksInputsFromJson(reading.inputsJson));
        return ok();
    }
    BOOST_OUTCOME_TRY(reading::keptFitFromJson(reading.inputsJson));
    return ok();
}

Result<void> checkPictures(const project::Store& store, project::ShotId shot) {
    BOOST_OUTCOME_TRY(stored, store.picturesOf(shot));
    if (stored) {
        for (const project::StoredPicture& picture : stored->pictures) {
            BOOST_OUTCOME_TRY(decodePicture(stored->codec, picture.bytes));
        }
    }
    return ok();
}

}  // namespace

Result<std::vector<std::string>> faultsOfKept(const project::Store& store) {
    std::vector<std::string> faults;
    const auto all = store.snapshot();
    for (const project::Reading& reading : all->readings) {
        const project::Shot* shot = all->shots.find(reading.shot);
        if (const auto sound = checkInputs(reading); !sound && shot != nullptr) {
            faults.push_back(
                said("Reading {} of {} cannot be computed again: what it was computed from is damaged ({}). Read the shot again, or restore a copy of the project.",
                     reading.id.value, shotName(*all, *shot), sound.error().message));
        }
    }
    BOOST_OUTCOME_TRY(sizes, store.pictureSizes());
    for (const project::StoredSize& size : sizes) {
        const project::Shot* shot = all->shots.find(size.shot);
        if (const auto sound = checkPictures(store, size.shot); !sound && shot != nullptr) {
            faults.push_back(
                said("The kept pictures of {} cannot be decoded: {} Remove them and make them again from the clip: turnmark-cli evidence.",
                     shotName(*all, *shot), sound.error().message));
        }
    }
    return faults;
}

}  // namespace core::evidence
