#include <array>
#include <nlohmann/json.hpp>

#include "core/base/whole_number.h"
#include "core/base/words.h"
#include "core/plan/plan.h"

namespace core::plan {
namespace {

using Json = nlohmann::json;

constexpr std::array kPlanOrders{OrderKind::Random, OrderKind::Blocked, OrderKind::LatinSquare,
                                 OrderKind::Williams};
constexpr std::array<const char*, 5> kPlanMarkings{"three_quarter_dark", "half_dark", "band",
                                                   "band_with_dot", "other"};

template <class T>
void put(Json& json, const char* key, const std::optional<T>& value) {
    if (value) {
        json[key] = *value;
    }
}

template <class T>
void take(const Json& json, const char* key, std::optional<T>& value) {
    if (const auto at = json.find(key); at != json.end()) {
        if constexpr (std::integral<T>) {
            value = wholeFrom<T>(*at);
        } else {
            value = at->template get<T>();
        }
    }
}

template <std::integral T>
void takeWhole(const Json& json, T& value) {
    value = wholeFrom<T>(json);
}

OrderKind orderFrom(const std::string& name) {
    for (const OrderKind kind : kPlanOrders) {
        if (name == orderKindName(kind)) {
            return kind;
        }
    }
    throw std::runtime_error(said("the order '{}' is not known", name));
}

BallMarking markingFrom(const std::string& name) {
    for (std::size_t i = 0; i < kPlanMarkings.size(); ++i) {
        if (name == kPlanMarkings[i]) {
            return static_cast<BallMarking>(i);
        }
    }
    throw std::runtime_error(said("the marking '{}' is not known", name));
}

Json implementJson(const PlannedImplement& implement) {
    return {{"name", implement.name},
            {"condition", implement.condition},
            {"attributes", implement.attributes}};
}

Plan planFrom(const Json& json) {
    Plan plan;
    json.at("session").get_to(plan.session);
    json.at("attribute_names").get_to(plan.attributeNames);
    for (const Json& item : json.at("implements")) {
        plan.implements.push_back(
            {item.at("name"), item.at("condition"),
             item.at("attributes").get<std::map<std::string, std::string>>()});
    }
    json.at("hitters").get_to(plan.hitters);
    takeWhole(json.at("shots_per_cell"), plan.shotsPerCell);
    takeWhole(json.at("shots_per_visit"), plan.shotsPerVisit);
    plan.order = orderFrom(json.at("order").get<std::string>());
    takeWhole(json.at("seed"), plan.seed);
    take(json, "control", plan.control);
    takeWhole(json.at("control_shots"), plan.controlShots);
    takeWhole(json.at("swings_between_rests"), plan.swingsBetweenRests);
    takeWhole(json.at("rest_minutes"), plan.restMinutes);
    json.at("ball").get_to(plan.ball);
    plan.marking = markingFrom(json.at("marking").get<std::string>());
    take(json, "assumed_scatter_rpm", plan.assumedScatterRpm);
    take(json, "capture_fps", plan.filming.captureFps);
    take(json, "exposure_s", plan.filming.exposureSeconds);
    take(json, "expected_rpm", plan.filming.expectedRpm);
    return plan;
}

}  // namespace

std::string planToJson(const Plan& plan) {
    Json json{{"session", plan.session},
              {"attribute_names", plan.attributeNames},
              {"implements", Json::array()},
              {"hitters", plan.hitters},
              {"shots_per_cell", plan.shotsPerCell},
              {"shots_per_visit", plan.shotsPerVisit},
              {"order", orderKindName(plan.order)},
              {"seed", plan.seed},
              {"control_shots", plan.controlShots},
              {"swings_between_rests", plan.swingsBetweenRests},
              {"rest_minutes", plan.restMinutes},
              {"ball", plan.ball},
              {"marking", kPlanMarkings[static_cast<std::size_t>(plan.marking)]}};
    for (const PlannedImplement& implement : plan.implements) {
        json["implements"].push_back(implementJson(implement));
    }
    put(json, "control", plan.control);
    put(json, "assumed_scatter_rpm", plan.assumedScatterRpm);
    put(json, "capture_fps", plan.filming.captureFps);
    put(json, "exposure_s", plan.filming.exposureSeconds);
    put(json, "expected_rpm", plan.filming.expectedRpm);
    return json.dump();
}

Result<Plan> planFromJson(std::string_view text) {
    Plan plan;
    try {
        plan = planFrom(Json::parse(text));
    } catch (const std::exception& wrong) {  // of nlohmann::json and the two look-ups above
        return fail(ErrorCode::InvalidInput, said("The plan cannot be read: {}.", wrong.what()));
    }
    BOOST_OUTCOME_TRY(checkPlan(plan));
    return plan;
}

}  // namespace core::plan
