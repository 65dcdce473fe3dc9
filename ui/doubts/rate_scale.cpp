#include "ui/doubts/rate_scale.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

#include "ui/models/number_text.h"
#include "ui/style/data_palette.h"
#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

constexpr double kClaimRadiusPx = 7.0;
constexpr double kWordsAwayPx = 14.0;  // from the middle of the mark
constexpr double kApartPx = 12.0;      // between the words of neighbours
constexpr double kOtherHeightPx = 14.0;
constexpr double kOtherWidthPx = 2.0;
constexpr double kMostWordsShare = 0.35;  // of the width, left of the axis
constexpr int kLeastWidthPx = 280;

QString wholeText(double rpm) {
    return models::numberText(rpm, 'f', 0);
}

const QFont& scaleFont(const QFont& font, style::Weight weight = style::Weight::Regular) {
    return style::textFont(font, style::TextSize::Small, weight);
}

const QFont& claimFont(const QFont& font) {
    return style::textFont(font, style::TextSize::Body, style::Weight::Strong);
}

}  // namespace

RateScale::RateScale(QWidget* parent) : QWidget{parent} {
    setObjectName(QStringLiteral("doubtScale"));
    setAccessibleName(tr("Readings and the other shots of the cell on one scale"));
    QSizePolicy policy{QSizePolicy::Expanding, QSizePolicy::Fixed};
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void RateScale::show(Content content) {
    m_content = std::move(content);
    std::stable_sort(m_content.claims.begin(), m_content.claims.end(),
                     [](const Claim& a, const Claim& b) { return a.rpm < b.rpm; });
    std::sort(m_content.others.begin(), m_content.others.end());
    m_axis.reset();
    if (m_content.saysSomething()) {
        std::vector<double> all = m_content.others;
        for (const Claim& claim : m_content.claims) {
            all.push_back(claim.rpm);
        }
        m_axis.emplace(all);
        setToolTip(m_axis->isByRatio()
                       ? tr("Equal lengths are equal ratios: the rates lie too far apart for an "
                            "even scale. Filled: in use. Rings: its rivals. Ticks: other shots.")
                       : tr("Filled: in use. Rings: its rivals. Ticks: other shots."));
    }
    setVisible(m_axis.has_value());
    updateGeometry();
    update();
}

double RateScale::laneHeightPx() const {
    return std::max(2.0 * kClaimRadiusPx + 4.0, QFontMetricsF{claimFont(font())}.height() + 4.0);
}

RateScale::Room RateScale::roomOf(int width) const {
    const QFontMetricsF small{scaleFont(font())};
    const double words =
        m_content.others.empty() ? 0.0 : small.horizontalAdvance(m_content.othersWords) + kApartPx;
    const double unit = small.horizontalAdvance(tr("rpm")) + kApartPx;
    const double left = std::min(std::max(words, unit), kMostWordsShare * width);
    return {left + kClaimRadiusPx, width - kClaimRadiusPx - 2.0};
}

double RateScale::xOf(double rpm, const Room& room) const {
    return room.left + m_axis->shareOf(rpm) * (room.right - room.left);
}

std::vector<RateScale::Placed> RateScale::placed(int width) const {
    std::vector<Placed> all;
    if (!m_axis) {
        return all;
    }
    const Room room = roomOf(width);
    const QFontMetricsF metrics{claimFont(font())};
    const double lane = laneHeightPx();
    std::vector<std::vector<QRectF>> lanes;  // what is taken of each
    for (const Claim& claim : m_content.claims) {
        const double x = xOf(claim.rpm, room);
        const double advance = metrics.horizontalAdvance(claim.words);
        const bool isRight = x + kWordsAwayPx + advance <= width;
        const double left = isRight ? x + kWordsAwayPx : std::max(0.0, x - kWordsAwayPx - advance);
        const QRectF taken = QRectF{left, 0.0, advance, lane}
                                 .united({x - kClaimRadiusPx, 0.0, 2.0 * kClaimRadiusPx, lane})
                                 .adjusted(-kApartPx / 2.0, 0.0, kApartPx / 2.0, 0.0);
        std::size_t at = 0;
        while (at < lanes.size() &&
               std::any_of(lanes[at].begin(), lanes[at].end(),
                           [&taken](const QRectF& other) { return other.intersects(taken); })) {
            ++at;
        }
        if (at == lanes.size()) {
            lanes.emplace_back();
        }
        lanes[at].push_back(taken);
        const double top = lane * static_cast<double>(at);
        all.push_back({&claim, {x, top + lane / 2.0}, {left, top, advance, lane}});
    }
    return all;
}

double RateScale::claimsBottomPx(const std::vector<Placed>& claims) const {
    double bottom = 0.0;
    for (const Placed& each : claims) {
        bottom = std::max(bottom, each.words.bottom());
    }
    return bottom;
}

int RateScale::heightForWidth(int width) const {
    if (!m_axis) {
        return 0;
    }
    const double others = m_content.others.empty() ? 0.0 : laneHeightPx();
    return static_cast<int>(std::ceil(claimsBottomPx(placed(width)) + others + style::kPairPx +
                                      QFontMetricsF{scaleFont(font())}.height())) +
           2;
}

QSize RateScale::sizeHint() const {
    const int wide = std::max(width(), kLeastWidthPx);
    return {kLeastWidthPx, heightForWidth(wide)};
}

QSize RateScale::minimumSizeHint() const {
    return sizeHint();
}

std::vector<style::SpokenPart> RateScale::spokenParts() {
    std::vector<style::SpokenPart> parts;
    for (const Placed& each : placed(width())) {
        const QRectF place = each.words.united(
            {each.mark.x() - kClaimRadiusPx, each.words.top(), kClaimRadiusPx, 1.0});
        parts.push_back({each.claim->words, tr("rpm"), place.toRect(), each.claim->isInUse});
    }
    if (m_axis && !m_content.others.empty()) {
        parts.push_back(
            {m_content.othersWords,
             tr("%1, from %2 to %3 rpm")
                 .arg(m_content.others.size())
                 .arg(wholeText(m_content.others.front()), wholeText(m_content.others.back())),
             rect()});
    }
    return parts;
}

void RateScale::paintEvent(QPaintEvent*) {
    if (!m_axis) {
        return;
    }
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHint(QPainter::Antialiasing);
    const Room room = roomOf(width());
    const auto claims = placed(width());
    const double othersTop = claimsBottomPx(claims);
    paintAxis(painter, room,
              othersTop + (m_content.others.empty() ? 0.0 : laneHeightPx()) + style::kPairPx);
    if (!m_content.others.empty()) {
        paintOthers(painter, room, othersTop);
    }
    const QColor ink = palette().color(QPalette::WindowText);
    painter.setFont(claimFont(font()));
    for (const Placed& each : claims) {
        // No line of the scale runs through words.
        painter.fillRect(each.words.adjusted(-2.0, 2.0, 2.0, -2.0),
                         palette().color(backgroundRole()));
        style::drawShape(painter, each.claim->isInUse ? style::Shape::Diamond : style::Shape::Ring,
                         each.mark, kClaimRadiusPx,
                         each.claim->isInUse ? ink : style::colour(style::Token::Grave, palette()));
        painter.setPen(ink);
        painter.drawText(each.words, Qt::AlignVCenter | Qt::AlignLeft, each.claim->words);
    }
}

void RateScale::paintAxis(QPainter& painter, const Room& room, double topPx) const {
    const QFont numbers = style::tabularFont(scaleFont(font()));
    const QFontMetricsF metrics{numbers};
    const double widest = metrics.horizontalAdvance(QStringLiteral("00000")) + kApartPx;
    const int most = static_cast<int>((room.right - room.left) / widest);
    const QColor quiet = style::colour(style::Token::Quiet, palette());
    painter.setFont(numbers);
    double free = room.left;  // of numbers, from here on
    for (const double tick : m_axis->ticks(std::min(most, 8))) {
        const double x = xOf(tick, room);
        painter.setPen(QPen{style::colour(style::Token::Line, palette()), style::kHairlinePx});
        painter.drawLine(QPointF{x, 0.0}, QPointF{x, topPx - 2.0});
        const QString number = wholeText(tick);
        const double advance = metrics.horizontalAdvance(number);
        const double left = std::min(x - advance / 2.0, width() - advance);
        if (left < free - advance / 2.0 && free > room.left) {
            continue;
        }
        painter.setPen(quiet);
        painter.drawText(QPointF{left, topPx + metrics.ascent()}, number);
        free = left + advance + kApartPx + advance / 2.0;
    }
    painter.setPen(quiet);
    painter.drawText(QPointF{0.0, topPx + metrics.ascent()}, tr("rpm"));
}

void RateScale::paintOthers(QPainter& painter, const Room& room, double topPx) const {
    const QColor quiet = style::colour(style::Token::Quiet, palette());
    const double middle = topPx + laneHeightPx() / 2.0;
    painter.setFont(scaleFont(font()));
    painter.setPen(quiet);
    const QRectF words{0.0, topPx, room.left - kClaimRadiusPx, laneHeightPx()};
    painter.drawText(words, Qt::AlignVCenter | Qt::AlignLeft,
                     painter.fontMetrics().elidedText(m_content.othersWords, Qt::ElideRight,
                                                      static_cast<int>(words.width())));
    painter.setPen(QPen{quiet, kOtherWidthPx, Qt::SolidLine, Qt::FlatCap});
    for (const double rpm : m_content.others) {
        const double x = xOf(rpm, room);
        painter.drawLine(QPointF{x, middle - kOtherHeightPx / 2.0},
                         QPointF{x, middle + kOtherHeightPx / 2.0});
    }
}

}  // namespace ui::doubts
