// What is done to the top when its blocks are joined.
#pragma once

#include "sheet/book.hpp"

namespace farflung::sheet {

/// Borders, measured through the middle first; backing with its seams; batting; binding; hanging sleeve: each drawn,
/// with what to cut. The book has its workroom.
std::vector<Page> finishing(const Book& book);

/// The usual cautions, where people cut, press, give away and sell. The book has its workroom.
std::vector<Page> cautions_page(const Book& book);

/// For a class or a shop: what each kit holds, what to pull from the bolts for all, the packing checklist, and a label
/// for each bag. No page unless kits were asked for. The book has its workroom.
std::vector<Page> kit_pages(const Book& book);

}  // namespace farflung::sheet
