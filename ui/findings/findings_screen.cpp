#include "ui/findings/findings_screen.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTextBoundaryFinder>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/findings/settings.h"
#include "core/words/findings.h"
#include "ui/findings/findings_bar.h"
#include "ui/findings/findings_facts.h"
#include "ui/findings/pairs_view.h"
#include "ui/findings/plot_view.h"
#include "ui/findings/ranking/ranked_menu.h"
#include "ui/findings/ranking/ranked_view.h"
#include "ui/findings/ranking/ranking_panel.h"
#include "ui/findings/side_panel.h"
#include "ui/findings/table_view.h"
#include "ui/findings/tr.h"
#include "ui/models/ranked_table_model.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::findings {
namespace {

using core::findings::FindingsPtr;
using core::project::HitterId;
using core::project::ImplementId;
using core::project::ShotId;

constexpr int kUsualWidth = 1100;  // below it the side panel is a line under the head
constexpr int kWideWidth = 1700;
constexpr double kMostOfWidth = 0.42;  // that the side panel takes, however large the text is
constexpr int kLowHeight = 480;        // below it rows are compact

models::RemarkKind kindOf(core::doubts::Grade grade) {
    switch (grade) {
        case core::doubts::Grade::Note:
            return models::RemarkKind::Note;
        case core::doubts::Grade::Question:
            return models::RemarkKind::Question;
        case core::doubts::Grade::Grave:
            return models::RemarkKind::Grave;
    }
    return models::RemarkKind::None;
}

void sayWhyEmpty(style::EmptyPage& page, const core::findings::Findings& findings) {
    using Way = style::EmptyPage::Way;
    if (findings.summary.unassigned.kept > 0) {
        page.say(tr("The kept shots are not assigned yet"),
                 tr("Assign them to implement and hitter in Footage; they appear here at once."),
                 Way::Footage);
    } else {
        page.say(tr("Nothing to compare yet"),
                 tr("Keep the first shots in Reading, and assign them to implement and hitter in "
                    "Footage. Every kept shot appears here at once."),
                 Way::Reading);
    }
}

/// Which kept shots are in no number here, and why.
QString leftOutWords(const core::findings::Findings& findings) {
    QStringList lines;
    for (const auto& clip : findings.summary.leftOut) {
        lines << QString::fromStdString(core::report::leftOutSentence(clip));
    }
    return lines.join(QLatin1Char{'\n'});
}

}  // namespace

FindingsScreen::FindingsScreen(core::project::Store& store, bridge::FindingsKeeper& keeper,
                               QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_keeper{keeper},
      m_bar{new FindingsBar{store}},
      m_answer{new QLabel},
      m_message{new QLabel},
      m_line{new QWidget},
      m_lineWords{new QLabel},
      m_sideSwitch{new QToolButton},
      m_side{new SidePanel{store}},
      m_tabs{new QTabWidget},
      m_ranking{new RankingPanel},
      m_pairs{new PairsView},
      m_hitters{new TableView{
          {tr("Implement"), tr("Which"), tr("Difference, rpm"), tr("95 %, rpm"), tr("Verdict")},
          tr("Hitter against hitter, new against worn")}},
      m_drift{new PlotView{tr("Spin over the shots of a filming day")}},
      m_attributes{new PlotView{tr("Spin against an attribute of the implements")}},
      m_agreement{new PlotView{tr("Marks against the pictures")}},
      m_method{new QPlainTextEdit},
      m_pages{new QStackedWidget},
      m_empty{new style::EmptyPage{0.5}},
      m_waiting{new QLabel{tr("The findings are being computed.")}} {
    layOut();
    connectAll();
    m_listening = m_store.listen([this](const core::project::Store::Change&) {
        if (isVisible()) {
            m_side->update(m_store.snapshot());
            refresh();
        }
    });
    connect(&m_keeper, &bridge::FindingsKeeper::changed, this, [this] {
        if (isVisible() || !m_findings) {
            adopt();
        }
    });
    refresh();
}

FindingsScreen::~FindingsScreen() = default;

QWidget* FindingsScreen::makeHead() {
    m_answer->setObjectName(QStringLiteral("answer"));
    style::showPlainWords(m_answer);
    m_answer->setTextInteractionFlags(Qt::TextSelectableByMouse);
    style::setTextSize(m_answer, style::TextSize::Title, style::Weight::Strong);
    m_message->setObjectName(QStringLiteral("message"));
    style::showPlainWords(m_message);
    m_message->hide();
    m_lineWords->setTextFormat(Qt::PlainText);
    m_lineWords->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_sideSwitch->setObjectName(QStringLiteral("side_switch"));
    m_sideSwitch->setText(tr("Shots"));
    m_sideSwitch->setCheckable(true);
    m_sideSwitch->setToolTip(
        tr("Shows what is said of the chosen row, and its shots (Enter; Esc closes)"));
    auto* line = new QHBoxLayout{m_line};
    line->setContentsMargins(0, 0, 0, 0);
    line->addWidget(m_lineWords, 1);
    line->addWidget(m_sideSwitch);
    auto* head = new QWidget;
    auto* layout = new QVBoxLayout{head};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(4);
    layout->addWidget(m_bar);
    auto* publish = new QPushButton{tr("Go to Publish")};
    publish->setObjectName(QStringLiteral("go_to_publish"));
    publish->setToolTip(tr("What is open, then the page for others (Ctrl+6)"));
    style::setRank(publish, style::Rank::Primary);
    connect(publish, &QPushButton::clicked, this, &FindingsScreen::publishWanted);
    auto* answer = new QHBoxLayout;
    answer->addWidget(m_answer, 1);
    answer->addWidget(publish);
    layout->addLayout(answer);
    layout->addWidget(m_message);
    layout->addWidget(m_line);
    return head;
}

void FindingsScreen::makeViews() {
    m_method->setReadOnly(true);
    m_method->setFrameShape(QFrame::NoFrame);
    m_method->setAccessibleName(tr("How it was read and computed"));
    m_method->setTabChangesFocus(true);
    m_tabs->setObjectName(QStringLiteral("views"));
    m_tabs->setAccessibleName(tr("Views of the findings"));
    m_tabs->setUsesScrollButtons(true);
    m_tabs->setDocumentMode(true);
    const std::initializer_list<std::pair<QWidget*, QString>> views{
        {m_ranking, tr("Ranking")},       {m_pairs, tr("Pairs")},
        {m_hitters, tr("Hitters")},       {m_drift, tr("Drift")},
        {m_attributes, tr("Attributes")}, {m_agreement, tr("Agreement")},
        {m_method, tr("Method")}};
    for (const auto& [view, title] : views) {
        const int at = m_tabs->addTab(view, title);
        m_tabs->setTabToolTip(at, tr("%1 (Ctrl+Tab goes on)").arg(title));
    }
}

void FindingsScreen::layOut() {
    makeViews();
    auto* lower = new QHBoxLayout;
    lower->setSpacing(style::kCardsPx);
    lower->addWidget(m_tabs, 1);
    lower->addWidget(m_side);
    auto* page = new QWidget;
    auto* all = new QVBoxLayout{page};
    all->setContentsMargins(0, 0, 0, 0);
    all->addWidget(makeHead());
    all->addLayout(lower, 1);
    m_waiting->setObjectName(QStringLiteral("waiting"));
    m_pages->addWidget(page);
    m_waiting->setAlignment(Qt::AlignCenter);
    m_waiting->setWordWrap(true);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(m_waiting);
    connect(m_empty, &style::EmptyPage::wayChosen, this, &FindingsScreen::wayChosen);
    m_pages->setCurrentWidget(m_waiting);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kCardsPx, style::kBetweenPx, style::kCardsPx,
                               style::kBetweenPx);
    layout->addWidget(m_pages);
    fitToSize();
}

void FindingsScreen::connectAll() {
    connect(m_tabs, &QTabWidget::currentChanged, this, &FindingsScreen::fillView);
    connect(m_bar, &FindingsBar::scopeChanged, this, &FindingsScreen::showFindings);
    connect(&m_ranking->view(), &RankedView::rowChosen, this, &FindingsScreen::onRowChosen);
    connect(&m_ranking->view(), &RankedView::hitterChosen, this, &FindingsScreen::showCell);
    connect(&m_ranking->view(), &QTableView::activated, this, [this] {
        m_sideSwitch->setChecked(true);
        m_side->focusShots();
    });
    auto* menu = new RankedMenu{m_ranking->view()};
    connect(menu, &RankedMenu::readingWanted, this, &FindingsScreen::readingWanted);
    connect(menu, &RankedMenu::doubtsWanted, this, &FindingsScreen::doubtsWanted);
    connect(m_side, &SidePanel::doubtsWanted, this, &FindingsScreen::doubtsOfShotWanted);
    connect(m_sideSwitch, &QToolButton::toggled, this, &FindingsScreen::fitToSize);
    connect(m_side, &SidePanel::shotActivated, this, &FindingsScreen::shotActivated);
    connect(m_hitters, &TableView::shotsWanted, this, &FindingsScreen::showShots);
    connect(
        m_pairs, &PairsView::pairActivated, this, [this](ImplementId first, ImplementId second) {
            auto& rows = m_ranking->rows();
            auto shots = rows.shotsOf(rows.rowOf(first));
            const auto others = rows.shotsOf(rows.rowOf(second));
            shots.insert(shots.end(), others.begin(), others.end());
            const auto* pair = comparison().pair(first, second);
            say(pair == nullptr ? QString{}
                                : QString::fromStdString(
                                      core::words::sentence(*pair, m_findings->noticeableStep)));
            showShots(shots);
        });
    const auto open = [this](qint64 shot) { Q_EMIT shotActivated(ShotId{shot}); };
    connect(m_drift, &PlotView::activated, this, open);
    connect(m_agreement, &PlotView::activated, this, open);
    connect(m_attributes, &PlotView::activated, this,
            [this](qint64 implement) { choose(ImplementId{implement}); });
}

void FindingsScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_isLookToCount = true;
    m_side->update(m_store.snapshot());
    refresh();
    Q_EMIT visibilityChanged(true);
    Q_EMIT statusChanged(
        tr("Findings describe the specimens and hitters that were filmed. Whether an "
           "implement is legal to play with is for the governing body to say."));
}

void FindingsScreen::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    Q_EMIT visibilityChanged(false);
}

void FindingsScreen::showDoubts(const core::doubts::DoubtsPtr& doubts) {
    std::map<ImplementId, models::OpenDoubts> open;
    const auto snapshot = m_store.snapshot();
    for (const auto& item : doubts ? doubts->items : std::vector<core::doubts::Doubted>{}) {
        const auto* cell = item.cell ? snapshot->cells.find(*item.cell) : nullptr;
        if (cell != nullptr && !item.isSettled) {
            models::OpenDoubts& of = open[cell->implement];
            ++of.count;
            of.worst = std::max(of.worst, kindOf(item.doubts.front().grade));
        }
    }
    const QString before = remarksOfChosen();
    m_ranking->rows().setOpenDoubts(std::move(open));
    if (remarksOfChosen() != before) {
        onRowChosen();
    }
}

QString FindingsScreen::remarksOfChosen() const {
    const auto implement = m_ranking->view().chosen();
    const auto& rows = m_ranking->rows();
    const int row = implement ? rows.rowOf(*implement) : -1;
    return row < 0 || rows.rankedOf(row) == nullptr  // why it is left out is its sentence
               ? QString{}
               : rows.index(row, models::RankedTableModel::kRemarks).data().toString();
}

void FindingsScreen::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitToSize();
}

void FindingsScreen::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && m_sideSwitch->isChecked()) {
        m_sideSwitch->setChecked(false);
        m_ranking->view().setFocus();
        return;
    }
    QWidget::keyPressEvent(event);
}

void FindingsScreen::fitToSize() {
    const int letter = fontMetrics().averageCharWidth();
    const int usualSide = letter * 52;
    const bool isSmall = width() < kUsualWidth || usualSide > kMostOfWidth * width();
    m_line->setVisible(isSmall);
    m_side->setVisible(!isSmall || m_sideSwitch->isChecked());
    m_side->setFixedWidth(isSmall ? letter * 42 : width() < kWideWidth ? usualSide : letter * 64);
    m_ranking->view().setNarrow(isSmall);
    m_ranking->setLow(height() < kLowHeight);
    fitLine();
}

void FindingsScreen::refresh() {
    m_keeper.want();
    if (m_keeper.isUpToDate()) {
        adopt();
    }
}

void FindingsScreen::adopt() {
    m_message->setVisible(!m_keeper.trouble().isEmpty());
    if (!m_keeper.trouble().isEmpty()) {
        m_message->setText(m_keeper.trouble());
        m_waiting->setText(m_keeper.trouble());
        return;
    }
    if (m_findings != m_keeper.findings()) {
        m_findings = m_keeper.findings();
        showFindings();
    }
    const QString leftOut = leftOutWords(*m_findings);
    m_message->setText(leftOut);
    m_message->setVisible(!leftOut.isEmpty());
    countLook();
}

void FindingsScreen::countLook() {
    if (!m_isLookToCount || !isVisible() || !m_findings || m_findings->together().ranked.empty()) {
        return;
    }
    m_isLookToCount = false;
    const auto before = core::findings::looks(*m_store.snapshot());
    const auto after = core::findings::nextLook(before, m_findings->fingerprint);
    if (after.count == before.count) {
        return;
    }
    const auto kept = core::findings::keepLook(m_store, after);
    if (!kept) {
        m_message->setText(QString::fromStdString(kept.error().message));
        m_message->show();
    }
}

const core::findings::Comparison& FindingsScreen::comparison() const {
    const auto hitter = m_bar->hitter();
    const auto* alone = hitter ? m_findings->comparisonOf(*hitter) : nullptr;
    return alone == nullptr ? m_findings->together() : *alone;
}

void FindingsScreen::showFindings() {
    if (!m_findings) {
        return;
    }
    m_bar->show(*m_findings);
    m_answer->setText(
        QString::fromStdString(core::words::sentence(comparison(), m_findings->noticeableStep)));
    m_ranking->show(m_findings, m_bar->hitter(), m_bar->areHittersApart());
    for (int tab = 0; tab < m_tabs->count(); ++tab) {
        m_toFill.insert(tab);
    }
    fillView(m_tabs->currentIndex());
    const bool isEmpty = m_ranking->rows().rowCount() == 0;
    if (isEmpty) {
        sayWhyEmpty(*m_empty, *m_findings);
    }
    m_pages->setCurrentIndex(isEmpty ? m_pages->indexOf(m_empty) : 0);
}

void FindingsScreen::fillView(int tab) {
    if (!m_findings || !m_toFill.remove(tab)) {
        return;
    }
    const QWidget* view = m_tabs->widget(tab);
    if (view == m_pairs) {
        m_pairs->show(m_findings, &comparison());
    } else if (view == m_hitters) {
        m_hitters->show(hitterSummary(*m_findings), hitterRows(*m_findings));
    } else if (view == m_drift) {
        m_drift->show(driftPages(*m_findings), driftWords(*m_findings));
    } else if (view == m_attributes) {
        m_attributes->show(attributePages(*m_findings), attributeWords(*m_findings));
    } else if (view == m_agreement) {
        m_agreement->show(agreementPages(*m_findings), agreementWords(*m_findings));
    } else if (view == m_method) {
        m_method->setPlainText(methodText(*m_findings));
    }
}

void FindingsScreen::choose(ImplementId implement) {
    m_ranking->view().choose(implement);
}

void FindingsScreen::showCell(ImplementId implement, HitterId hitter) {
    std::vector<ShotId> shots;
    QString sentence;
    for (const auto& cell : m_findings->cells) {
        if (cell.row.implement != implement || cell.row.hitter != hitter) {
            continue;
        }
        sentence = QString::fromStdString(core::words::sentence(cell) + " " +
                                          core::words::scatterSentence(cell));
        for (const auto& reading : cell.row.readings) {
            shots.push_back(reading.shot);
        }
    }
    say(sentence);
    m_side->showShots(shots, true);
}

void FindingsScreen::onRowChosen() {
    const auto implement = m_ranking->view().chosen();
    if (!implement) {
        say({});
        m_side->showShots({}, true);
        return;
    }
    const auto& rows = m_ranking->rows();
    const int row = rows.rowOf(*implement);
    QStringList sentences{rows.sentenceOf(row)};
    const QString remarks = remarksOfChosen();
    if (!remarks.isEmpty()) {
        sentences.append(remarks);
    }
    say(sentences.join(QLatin1Char{'\n'}));
    m_side->showShots(rows.shotsOf(row), true);
}

void FindingsScreen::say(const QString& sentence) {
    m_side->say(sentence);
    m_said = QString{sentence}.replace(QLatin1Char{'\n'}, QLatin1Char{' '});
    fitLine();
}

/// Whole sentences as long as there is room; the panel of shots has them all.
void FindingsScreen::fitLine() {
    constexpr int kBesidesPx = 32;  // margins, and between words and switch
    const int room = width() - m_sideSwitch->sizeHint().width() - kBesidesPx;
    const QFontMetrics& metrics = m_lineWords->fontMetrics();
    QTextBoundaryFinder ends{QTextBoundaryFinder::Sentence, m_said};
    QString shown;
    while (ends.toNextBoundary() > 0) {
        const QString longer = m_said.left(ends.position()).trimmed();
        if (metrics.horizontalAdvance(longer) > room) {
            break;
        }
        shown = longer;
    }
    m_lineWords->setText(shown.isEmpty() ? metrics.elidedText(m_said, Qt::ElideRight, room)
                                         : shown);
}

void FindingsScreen::showShots(const std::vector<ShotId>& shots) {
    m_side->showShots(shots, false);
    m_sideSwitch->setChecked(true);
    m_side->focusShots();
}

}  // namespace ui::findings
