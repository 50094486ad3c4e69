// Every piece of cloth that a quilt asks for, print by print: blocks, frame, binding, backing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cloth/shape.hpp"
#include "cloth/yardage_options.hpp"
#include "quilt/quilt.hpp"

namespace farflung::cloth {

using block::kNone;

/// How geese (a long triangle between two short ones) are made.
enum class GeeseMethod {
  plain,         ///< each triangle cut by itself: quarter-square and half-square
  four_at_once,  ///< one large and four small squares give four, nothing wasted; where the two short sides share a
                 ///< print
  flip,          ///< a rectangle and two squares sewn across their corners; the corners cut away are lost
};

/// How a corner triangle is put on a square or rectangle.
enum class CornerMethod {
  triangle,  ///< both parts cut to shape
  flip,      ///< the whole rectangle, and a square sewn across its corner
};

/// How border strips lie on the cloth. Crosswise ones need joins; lengthwise ones stretch less and take more cloth.
enum class BorderCut {
  crosswise,   ///< strips across the cloth, joined where one is too short
  lengthwise,  ///< in one piece along the selvage
};

/// What a test block came out at, its seam allowances still on it.
struct TestBlock {
  Length width, height;
};

/// How the quilter wants her cloth cut.
struct CutOptions {
  bool sixteenths = false;  ///< inch quilts: cut to 1/16 in
  GeeseMethod geese = GeeseMethod::plain;
  CornerMethod corners = CornerMethod::triangle;
  BorderCut borders = BorderCut::crosswise;
  Length setting_extra;  ///< setting triangles are cut larger by this, to be trimmed
  Length border_extra;   ///< each border strip longer by this, to be trimmed to the measured top
  YardageOptions yardage;
  std::optional<TestBlock> test_block;  ///< sashing, setting triangles and borders follow it; none: the quilt's own
  bool sewn_too = false;                ///< count the pieces of blocks that are sewn already
};

/// Rectangles to cut from one print, all alike, for one part of the quilt.
struct CutLine {
  int print = kNone;    ///< kNone: no print dealt yet
  std::string part;     ///< the slot's name, or "sashing", "cornerstone", "setting triangle", "border 1" ...
  int pattern = kNone;  ///< whose slot it is; kNone for the frame
  CutShape shape;
  int pieces = 0;        ///< patches
  int rectangles = 0;    ///< to cut from the cloth, each shape.width.cut x shape.height.cut
  bool turnable = true;  ///< may lie either way on the cloth; else its height runs along the cloth's length
  std::string note;      ///< "" or a further word
};

/// Strips that are cut to one length.
struct Strips {
  Length length;
  int count = 0;
};

/// Strips to be joined end to end: binding, long borders, long sashing.
struct Run {
  int print = kNone;
  std::string part;
  Length width;                 ///< cut
  std::vector<Length> lengths;  ///< cut lengths that are taken from the joined strip, longest first
  Length total;                 ///< of the joined strip, joins not counted
  Length join_loss;             ///< what each join takes: two seam allowances, or the strip's width on the diagonal
  bool turnable = true;         ///< strips may lie either way on the cloth; else across it
  /// How the total comes about, in words.
  std::string working;

  /// Strips of `strip` length that give the whole run: n strip - (n - 1) join_loss >= total.
  int strips_of(Length strip) const;

  /// As many, longest first: each `strip` long, the last as long as is still needed. Where that would be a snippet of
  /// less than 8 in beyond its join, the last two share what is needed, so that no seam lies beside another.
  std::vector<Strips> cut_from(Length strip, Ruler ruler) const;
};

/// Something the list could not hold to: a size off the ruler, a method that does not apply.
struct Remark {
  /// A JSON pointer into the quilt's file; empty where it is about no one place.
  std::string at;
  std::string says;
};

/// Everything to cut, before it is laid on any cloth; lines and runs in the order in which their parts are met.
struct CutList {
  Ruler ruler = Ruler::eighths;
  YardageOptions yardage;  ///< as it was made by
  std::vector<CutLine> lines;
  std::vector<Run> runs;
  std::vector<Remark> remarks;
  int sewn_blocks = 0;  ///< blocks left out because they are sewn
};

/// The frame's plan: by the test block's finished size where one was measured, here or in the quilt.
setting::Plan frame_plan(const quilt::Quilt& quilt, const CutOptions& options);

/// Guarantees: every patch of every block to be sewn and of the frame is counted once; rectangles of one print, shape
/// and size are as few as their patches allow, also over several parts; a one-way print's pieces lie so that they stand
/// upright where the layout has their block. The quilt must have passed problems_of.
CutList cut_list(const quilt::Quilt& quilt, const CutOptions& options = {});

}  // namespace farflung::cloth
