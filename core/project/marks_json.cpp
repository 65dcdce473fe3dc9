#include "core/project/marks_json.h"

#include "core/project/json_parts.h"

namespace core::project {
namespace {

using timebase::FrameIndex;

constexpr const char* kReturnKinds[] = {"nearest", "bracket"};
constexpr const char* kSpreadKinds[] = {"normal", "rectangular"};

template <class Enum, std::size_t count>
const char* wordFor(Enum value, const char* const (&words)[count]) {
    return words[static_cast<std::size_t>(value)];
}

Json startJson(const spin::StartMark& start) {
    Json json{{"frame", start.frame.value}};
    if (start.spreadIntervals) {
        json["spread_intervals"] = *start.spreadIntervals;
    }
    return json;
}

Json returnJson(const spin::ReturnMark& mark) {
    Json json{{"kind", wordFor(mark.kind, kReturnKinds)},
              {"frame", mark.frame.value},
              {"frame_after", mark.frameAfter.value}};
    if (mark.fraction) {
        json["fraction"] = mark.fraction->value;
        json["fraction_half_width"] = mark.fraction->halfWidth;
    }
    if (mark.turns) {
        json["turns"] = *mark.turns;
    }
    return json;
}

spin::ReturnMark returnFrom(const Json& json) {
    spin::ReturnMark mark;
    mark.kind = enumFrom<spin::ReturnMark::Kind>(json.at("kind"), kReturnKinds);
    mark.frame = frameFrom(json.at("frame"));
    mark.frameAfter = frameFrom(json.at("frame_after"));
    if (json.contains("fraction")) {
        mark.fraction = {json.at("fraction").get<double>(),
                         json.at("fraction_half_width").get<double>()};
    }
    mark.turns = optionalFrom<int>(json, "turns");
    return mark;
}

Json angleJson(const spin::AngleMark& mark) {
    Json json{{"frame", mark.frame.value},
              {"angle_rad", mark.angle.radians},
              {"spread_rad", mark.spread.radians},
              {"spread_kind", wordFor(mark.spreadKind, kSpreadKinds)}};
    if (mark.turns) {
        json["turns"] = *mark.turns;
    }
    return json;
}

spin::AngleMark angleFrom(const Json& json) {
    return {.frame = frameFrom(json.at("frame")),
            .angle = {json.at("angle_rad").get<double>()},
            .spread = {json.at("spread_rad").get<double>()},
            .spreadKind = enumFrom<spin::AngleMark::Spread>(json.at("spread_kind"), kSpreadKinds),
            .turns = optionalFrom<int>(json, "turns")};
}

Json marksJson(const spin::MarkSet& marks) {
    Json json{{"returns", listToJson(marks.returns, returnJson)},
              {"angles", listToJson(marks.angles, angleJson)}};
    if (marks.start) {
        json["start"] = startJson(*marks.start);
    }
    return json;
}

spin::MarkSet marksFrom(const Json& json) {
    spin::MarkSet marks;
    if (json.contains("start")) {
        const Json& start = json.at("start");
        marks.start = {frameFrom(start.at("frame")),
                       optionalFrom<double>(start, "spread_intervals")};
    }
    marks.returns = listFrom<spin::ReturnMark>(json.at("returns"), returnFrom);
    marks.angles = listFrom<spin::AngleMark>(json.at("angles"), angleFrom);
    return marks;
}

Json clockJson(const ClockSetting& clock) {
    Json json{{"kind", wordFor(clock.kind, kClockKinds)},
              {"stretch", toJson(clock.stretch)},
              {"relative_sigma", clock.relativeSigma}};
    if (clock.counted) {
        json["counted_fps"] = toJson(clock.counted->fps);
    }
    return json;
}

ClockSetting settingFrom(const Json& json) {
    ClockSetting clock;
    clock.kind = enumFrom<timebase::ClockKind>(json.at("kind"), kClockKinds);
    clock.stretch = rationalFrom(json.at("stretch"));
    if (json.contains("counted_fps")) {
        clock.counted = timebase::CaptureRate{rationalFrom(json.at("counted_fps"))};
    }
    clock.relativeSigma = json.at("relative_sigma").get<double>();
    return clock;
}

}  // namespace

std::string marksToJson(const spin::MarkSet& marks) {
    return marksJson(marks).dump();
}
std::string clockToJson(const ClockSetting& clock) {
    return clockJson(clock).dump();
}

Result<spin::MarkSet> marksFromJson(std::string_view text) {
    return parsed<spin::MarkSet>(text, marksFrom);
}
Result<ClockSetting> clockFromJson(std::string_view text) {
    return parsed<ClockSetting>(text, settingFrom);
}

}  // namespace core::project
