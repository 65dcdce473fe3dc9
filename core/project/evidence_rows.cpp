#include "core/project/evidence_rows.h"

#include <fmt/format.h>

#include "core/project/json_parts.h"

namespace core::project {
namespace {

Json pictureToJson(const EvidencePicture& picture) {
    Json json{{"frame", picture.frame.value}, {"capture_s", picture.captureSeconds},
              {"left_px", picture.leftPx},    {"top_px", picture.topPx},
              {"side_px", picture.sidePx},    {"stored_side_px", picture.storedSidePx},
              {"bytes", picture.bytes.size()}};
    if (picture.ball) {
        json["ball"] = {{"x_px", picture.ball->xPx},
                        {"y_px", picture.ball->yPx},
                        {"radius_px", picture.ball->radiusPx}};
    }
    return json;
}

/// Takes the bytes of the picture from their place in the blob.
EvidencePicture pictureFrom(const Json& json, const Blob& all, std::size_t& place) {
    EvidencePicture picture;
    picture.frame = frameFrom(json.at("frame"));
    picture.captureSeconds = json.at("capture_s").get<double>();
    picture.leftPx = json.at("left_px").get<double>();
    picture.topPx = json.at("top_px").get<double>();
    picture.sidePx = json.at("side_px").get<double>();
    picture.storedSidePx = json.at("stored_side_px").get<int>();
    if (json.contains("ball")) {
        const Json& ball = json.at("ball");
        picture.ball = {ball.at("x_px").get<double>(), ball.at("y_px").get<double>(),
                        ball.at("radius_px").get<double>()};
    }
    const auto size = json.at("bytes").get<std::size_t>();
    if (size > all.size() - place) {
        throw Json::other_error::create(501, "a picture is cut off", nullptr);
    }
    const auto from = all.begin() + static_cast<std::ptrdiff_t>(place);
    picture.bytes.assign(from, from + static_cast<std::ptrdiff_t>(size));
    place += size;
    return picture;
}

}  // namespace

Row evidenceRow(ShotId shot, const PictureEvidence& evidence) {
    Json list = Json::array();
    Blob all;
    for (const EvidencePicture& picture : evidence.pictures) {
        list.push_back(pictureToJson(picture));
        all.insert(all.end(), picture.bytes.begin(), picture.bytes.end());
    }
    return sealed({shot.value, evidence.madeAt, evidence.codec,
                   evidence.pictures.front().frame.value, evidence.pictures.back().frame.value,
                   list.dump(), std::move(all)});
}

Result<PictureEvidence> evidenceFrom(Row row) {
    BOOST_OUTCOME_TRY(plain, unsealed(std::move(row)));
    RowReader reader{std::move(plain)};
    PictureEvidence evidence;
    const std::int64_t shot = reader.integer();
    evidence.madeAt = reader.text();
    evidence.codec = reader.text();
    reader.integer();
    reader.integer();
    const std::string list = reader.text();
    const Blob all = reader.blob();
    BOOST_OUTCOME_TRY(reader.finish());
    try {
        std::size_t place = 0;
        for (const Json& json : Json::parse(list)) {
            evidence.pictures.push_back(pictureFrom(json, all, place));
        }
    } catch (const Json::exception& problem) {
        return fail(
            ErrorCode::Damaged,
            fmt::format("The kept pictures of shot {} cannot be read: {}.", shot, problem.what()));
    }
    return evidence;
}

}  // namespace core::project
