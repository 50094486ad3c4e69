#define POINTERHOLDER_TRANSITION 4  // qpdf: std::shared_ptr throughout
#include "sheet/read_pdf.hpp"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

namespace farflung::sheet {
namespace {

void collect_figures(QPDFObjectHandle node, std::vector<std::string>& found) {
  if (!node.isDictionary()) return;
  if (node.getKey("/S").isNameAndEquals("/Figure")) found.push_back(node.getKey("/Alt").getUTF8Value());
  QPDFObjectHandle children = node.getKey("/K");
  if (!children.isArray()) return collect_figures(children, found);
  for (int i = 0; i < children.getArrayNItems(); ++i) collect_figures(children.getArrayItem(i), found);
}

}  // namespace

PdfAsRead read_pdf(const std::string& bytes) {
  QPDF file;
  file.processMemoryFile("sheets", bytes.data(), bytes.size());
  QPDFObjectHandle root = file.getRoot(), about = file.getTrailer().getKey("/Info");
  PdfAsRead read;
  read.pages = QPDFPageDocumentHelper(file).getAllPages().size();
  read.tagged = root.getKey("/MarkInfo").getKey("/Marked").getBoolValue();
  read.dated = about.hasKey("/CreationDate");
  read.language = root.getKey("/Lang").getUTF8Value();
  read.title = about.getKey("/Title").getUTF8Value();
  collect_figures(root.getKey("/StructTreeRoot"), read.figures);
  read.sound = !file.anyWarnings();
  return read;
}

}  // namespace farflung::sheet
