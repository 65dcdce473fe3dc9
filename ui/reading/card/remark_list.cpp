#include "ui/reading/card/remark_list.h"

#include <QVBoxLayout>

#include "ui/style/let_go.h"
#include "ui/style/remark_line.h"

namespace ui::reading {
namespace {

style::RemarkKind remarkKind(Remark::Kind kind) {
    switch (kind) {
        case Remark::Kind::Warning:
            return style::RemarkKind::Grave;
        case Remark::Kind::LooksAlike:
            return style::RemarkKind::Question;
        case Remark::Kind::Agrees:
            return style::RemarkKind::Done;
        case Remark::Kind::Note:
            break;
    }
    return style::RemarkKind::Note;
}

}  // namespace

RemarkList::RemarkList(QWidget* parent) : QWidget{parent}, m_lines{new QVBoxLayout{this}} {
    m_lines->setContentsMargins(0, 0, 0, 0);
    m_lines->setSpacing(6);
}

void RemarkList::setRemarks(const QList<Remark>& remarks) {
    style::emptyLayout(*m_lines);
    for (const Remark& remark : remarks) {
        m_lines->addWidget(new style::RemarkLine{remarkKind(remark.kind), {}, remark.text, this});
    }
    setVisible(!remarks.isEmpty());
}

}  // namespace ui::reading
