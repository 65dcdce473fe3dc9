#include "core/project/store/entity_json.h"

#include "core/base/words.h"
#include "core/project/json_parts.h"

namespace core::project {
namespace {

using timebase::CaptureRate;
using timebase::CaptureRateEvidence;
using timebase::FrameIndex;

/// Writes the members of a piece of evidence; "kind" is added by the caller.
struct EvidenceWriter {
    Json operator()(const timebase::ContainerTag& tag) const {
        Json json{{"tag", tag.tag}, {"fps", toJson(tag.rate.fps)}};
        if (tag.isSetAside) {
            json["set_aside"] = true;
        }
        return json;
    }
    Json operator()(const timebase::ReviewerEntry& entry) const {
        Json json{{"fps", toJson(entry.rate.fps)}};
        if (entry.relativeSigma) {
            json["relative_sigma"] = *entry.relativeSigma;
        }
        return json;
    }
    Json operator()(const timebase::ClockCheck& check) const {
        return {{"filmed", check.filmed},
                {"instants", listToJson(check.instants,
                                        [](const timebase::ClockInstant& instant) {
                                            return Json{
                                                {"frame", instant.frame.value},
                                                {"known_s", instant.known.seconds},
                                                {"half_width_frames", instant.halfWidthFrames}};
                                        })},
                {"reference_relative_sigma", check.referenceRelativeSigma}};
    }
    Json operator()(const timebase::GravityCheck& check) const {
        return {{"assumed_fps", toJson(check.assumed.fps)},
                {"apparent_gravity_m_per_s2", check.apparentGravity}};
    }
};

Json evidenceJson(const CaptureRateEvidence& evidence) {
    Json json = std::visit(EvidenceWriter{}, evidence);
    json["kind"] = timebase::evidenceName(evidence);
    return json;
}

timebase::ClockCheck clockCheckFrom(const Json& json) {
    return {json.at("filmed").get<std::string>(),
            listFrom<timebase::ClockInstant>(json.at("instants"),
                                             [](const Json& instant) {
                                                 return timebase::ClockInstant{
                                                     frameFrom(instant.at("frame")),
                                                     {instant.at("known_s").get<double>()},
                                                     instant.at("half_width_frames").get<double>()};
                                             }),
            json.at("reference_relative_sigma").get<double>()};
}

CaptureRateEvidence evidenceFrom(const Json& json) {
    const auto kind = json.at("kind").get<std::string>();
    if (kind == "container_tag") {
        return timebase::ContainerTag{json.at("tag").get<std::string>(),
                                      CaptureRate{rationalFrom(json.at("fps"))},
                                      optionalFrom<bool>(json, "set_aside").value_or(false)};
    }
    if (kind == "reviewer_entry") {
        return timebase::ReviewerEntry{CaptureRate{rationalFrom(json.at("fps"))},
                                       optionalFrom<double>(json, "relative_sigma")};
    }
    if (kind == "clock_check") {
        return clockCheckFrom(json);
    }
    if (kind == "gravity_check") {
        return timebase::GravityCheck{CaptureRate{rationalFrom(json.at("assumed_fps"))},
                                      json.at("apparent_gravity_m_per_s2").get<double>()};
    }
    throw BadJson(said("evidence of the kind '{}' is not known", kind));
}

Json pictureToJson(const StoredPicture& picture) {
    Json json{{"frame", picture.frame.value}, {"capture_s", picture.captureSeconds},
              {"left_px", picture.leftPx},    {"top_px", picture.topPx},
              {"side_px", picture.sidePx},    {"stored_side_px", picture.storedSidePx},
              {"bytes", picture.bytes.size()}};
    if (picture.turnedDegrees != 0) {
        json["turned_deg"] = picture.turnedDegrees;
    }
    if (picture.ball) {
        json["ball"] = {{"x_px", picture.ball->xPx},
                        {"y_px", picture.ball->yPx},
                        {"radius_px", picture.ball->radiusPx}};
    }
    return json;
}

/// Far more than a picture of the ball has, a few ten kilobytes.
constexpr std::size_t kMostPictureBytes = std::size_t{16} << 20U;

StoredPicture pictureFrom(const Json& json) {
    StoredPicture picture;
    picture.frame = frameFrom(json.at("frame"));
    picture.captureSeconds = json.at("capture_s").get<double>();
    picture.leftPx = json.at("left_px").get<double>();
    picture.topPx = json.at("top_px").get<double>();
    picture.sidePx = json.at("side_px").get<double>();
    picture.storedSidePx = wholeFrom<int>(json.at("stored_side_px"));
    if (json.contains("turned_deg")) {
        picture.turnedDegrees = wholeFrom<int>(json.at("turned_deg"));
    }
    if (json.contains("ball")) {
        const Json& ball = json.at("ball");
        picture.ball = {ball.at("x_px").get<double>(), ball.at("y_px").get<double>(),
                        ball.at("radius_px").get<double>()};
    }
    const auto bytes = wholeFrom<std::size_t>(json.at("bytes"));
    if (bytes > kMostPictureBytes) {
        throw BadJson(said("a picture is said to have {}", counted(bytes, "byte", "bytes")));
    }
    picture.bytes.resize(bytes);
    return picture;
}

}  // namespace

std::string attributesToJson(const std::map<std::string, std::string>& attributes) {
    return Json(attributes).dump();
}

std::string clicksToJson(const std::vector<BallClick>& clicks) {
    return listToJson(clicks,
                      [](const BallClick& click) {
                          return Json{{"frame", click.frame.value},
                                      {"x_px", click.xPx},
                                      {"y_px", click.yPx},
                                      {"radius_px", click.radiusPx}};
                      })
        .dump();
}

std::string remarksToJson(const std::vector<ClipRemark>& remarks) {
    return listToJson(remarks,
                      [](const ClipRemark& remark) {
                          Json json{{"kind", remark.kind}, {"message", remark.message}};
                          if (remark.frame) {
                              json["frame"] = remark.frame->value;
                          }
                          return json;
                      })
        .dump();
}

std::string evidenceToJson(const std::vector<CaptureRateEvidence>& list) {
    return listToJson(list, evidenceJson).dump();
}

Result<std::map<std::string, std::string>> attributesFromJson(std::string_view text) {
    using Attributes = std::map<std::string, std::string>;
    return parsed<Attributes>(text, [](const Json& json) { return json.get<Attributes>(); });
}

Result<std::vector<BallClick>> clicksFromJson(std::string_view text) {
    return parsed<std::vector<BallClick>>(text, [](const Json& json) {
        return listFrom<BallClick>(json, [](const Json& click) {
            return BallClick{frameFrom(click.at("frame")), click.at("x_px").get<double>(),
                             click.at("y_px").get<double>(), click.at("radius_px").get<double>()};
        });
    });
}

Result<std::vector<ClipRemark>> remarksFromJson(std::string_view text) {
    return parsed<std::vector<ClipRemark>>(text, [](const Json& json) {
        return listFrom<ClipRemark>(json, [](const Json& remark) {
            std::optional<FrameIndex> frame;
            if (remark.contains("frame")) {
                frame = frameFrom(remark.at("frame"));
            }
            return ClipRemark{remark.at("kind").get<std::string>(), frame,
                              remark.at("message").get<std::string>()};
        });
    });
}

Result<std::vector<CaptureRateEvidence>> evidenceFromJson(std::string_view text) {
    return parsed<std::vector<CaptureRateEvidence>>(
        text, [](const Json& json) { return listFrom<CaptureRateEvidence>(json, evidenceFrom); });
}

std::string picturesToJson(const std::vector<StoredPicture>& pictures) {
    return listToJson(pictures, pictureToJson).dump();
}

Result<std::vector<StoredPicture>> picturesFromJson(std::string_view text) {
    return parsed<std::vector<StoredPicture>>(
        text, [](const Json& json) { return listFrom<StoredPicture>(json, pictureFrom); });
}

}  // namespace core::project
