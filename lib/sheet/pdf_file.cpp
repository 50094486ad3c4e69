#include "sheet/pdf_file.hpp"

#include <memory>

#define POINTERHOLDER_TRANSITION 4  // qpdf: std::shared_ptr throughout
#include <qpdf/Buffer.hh>
#include <qpdf/Pl_Buffer.hh>
#include <qpdf/Pl_DCT.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

namespace farflung::sheet {
namespace {

/// Colour as sharp as lightness: small motifs would bleed otherwise.
class SharpColour : public Pl_DCT::CompressConfig {
 public:
  void apply(jpeg_compress_struct* jpeg) override {
    jpeg->comp_info[0].h_samp_factor = jpeg->comp_info[0].v_samp_factor = 1;
  }
};

/// Gives each figure of the structure tree, in reading order, its alternative text.
void describe_figures(QPDFObjectHandle node, const std::vector<std::string>& says, std::size_t& next) {
  if (!node.isDictionary()) return;
  if (node.getKey("/S").isNameAndEquals("/Figure") && next < says.size()) {
    node.replaceKey("/Alt", QPDFObjectHandle::newUnicodeString(says[next++]));
  }
  QPDFObjectHandle children = node.getKey("/K");
  if (children.isArray()) {
    for (int i = 0; i < children.getArrayNItems(); ++i) describe_figures(children.getArrayItem(i), says, next);
  } else {
    describe_figures(children, says, next);
  }
}

}  // namespace

std::string jpeg_of(const unsigned char* rgb, int width, int height) {
  Pl_Buffer file("jpeg");
  SharpColour config;
  Pl_DCT encoder("encoder", &file, static_cast<JDIMENSION>(width), static_cast<JDIMENSION>(height), 3, JCS_RGB,
                 &config);
  encoder.write(rgb, std::size_t{3} * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  encoder.finish();
  const std::shared_ptr<Buffer> bytes = file.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

std::string finished_pdf(const std::string& bytes, const std::vector<std::string>& says) {
  QPDF file;
  file.setSuppressWarnings(true);  // of keys that Cairo writes twice; writing anew mends them
  file.processMemoryFile("sheets", bytes.data(), bytes.size());
  QPDFObjectHandle root = file.getRoot();
  root.replaceKey("/Lang", QPDFObjectHandle::newString("en"));
  root.replaceKey("/MarkInfo", QPDFObjectHandle::parse("<< /Marked true >>"));
  root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /DisplayDocTitle true >>"));
  std::size_t next = 0;
  describe_figures(root.getKey("/StructTreeRoot"), says, next);
  QPDFObjectHandle info = file.getTrailer().getKey("/Info");
  if (info.isDictionary()) info.removeKey("/CreationDate");

  QPDFWriter writer(file);
  writer.setOutputMemory();
  writer.setDeterministicID(true);
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setStreamDataMode(qpdf_s_compress);
  writer.write();
  const std::shared_ptr<Buffer> buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

}  // namespace farflung::sheet
