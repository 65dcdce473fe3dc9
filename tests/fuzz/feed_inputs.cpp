#include <cmath>

#include "core/project/snapshot.h"
#include "core/reading/inputs_json.h"
#include "core/reading/project_reading.h"
#include "core/reading/reading_archive.h"
#include "tests/fuzz/promise.h"
#include "tests/fuzz/taken.h"

namespace tests::fuzz {
namespace {

using namespace core;

const core::project::ClipFrames& someFrames() {
    static const core::project::ClipFrames kFrames = [] {
        core::project::ClipFrames frames;
        frames.stamps.timeBase = {1, 90'000};
        for (std::int64_t frame = 0; frame < 600; ++frame) {
            frames.stamps.ticks.push_back(frame * 375);
            frames.isKey.push_back(frame % 30 == 0);
        }
        return frames;
    }();
    return kFrames;
}

void feedMarks(const std::string& text) {
    const auto inputs = reading::marksInputsFromJson(text);
    if (!inputs) {
        promise(!inputs.error().message.empty(), "a failure is said in words");
        return;
    }
    const auto again = reading::marksInputsFromJson(reading::toJson(inputs.value()));
    promise(again.has_value() && again.value() == inputs.value(), "inputs come back bit for bit");
    const auto read = reading::readMarks(inputs.value(), someFrames());
    if (!read) {
        promiseWords(read.error());
        return;
    }
    promise(std::isfinite(read.value().estimate.rpm), "a rate is a number");
    promise(std::isfinite(read.value().standardUncertainty.rpm), "an uncertainty is a number");
}

void feedFit(const std::string& text) {
    const auto fit = reading::keptFitFromJson(text);
    if (!fit) {
        promise(!fit.error().message.empty(), "a failure is said in words");
        return;
    }
    const std::string written = reading::toJson(fit.value());
    const auto again = reading::keptFitFromJson(written);
    promise(again.has_value() && reading::toJson(again.value()) == written,
            "inputs come back bit for bit");
    promise(!reading::keyOf(fit.value().request).empty(), "a request has a key");
}

void feedArchiveOfReading(const std::string& bytes) {
    const auto reading = reading::fromArchive(bytes);
    if (!reading) {
        promiseWords(reading.error());
        return;
    }
    const auto again = reading::fromArchive(reading::toArchive(reading.value()));
    promise(again.has_value(), "what was read ahead can be kept again");
}

}  // namespace

void feedInputs(Bytes bytes) {
    Taken taken{bytes};
    const unsigned which = taken.byte() % 3U;
    const std::string text = asText(taken.rest());
    (which == 0 ? feedMarks : which == 1 ? feedFit : feedArchiveOfReading)(text);
}

}  // namespace tests::fuzz
