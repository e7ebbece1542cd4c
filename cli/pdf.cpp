// SPDX-License-Identifier: MIT
#include "cli/pdf.h"

#include <cairo-pdf.h>
#include <librsvg/rsvg.h>

#include <memory>

namespace railwright::cli {
namespace {

constexpr double kPointsPerInch = 72.0;
constexpr const char* kFixedDate = "2000-01-01T00:00:00Z";

struct Unref {
  void operator()(gpointer object) const { g_object_unref(object); }
};
struct Destroy {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Drawing = std::unique_ptr<RsvgHandle, Unref>;
using Surface = std::unique_ptr<cairo_surface_t, Destroy>;
using Pen = std::unique_ptr<cairo_t, Destroy>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

std::string take_reason(GError* error) {
  std::string reason = error ? error->message : "unknown";
  if (error) g_error_free(error);
  return reason;
}

Result<Drawing> read_svg(const sheets::Sheet& page, std::size_t number) {
  GError* error = nullptr;
  Drawing drawing(rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(page.svg.data()), page.svg.size(), &error));
  if (!drawing) return fail("pdf.bad_svg", std::to_string(number), {{"reason", take_reason(error)}});
  rsvg_handle_set_dpi(drawing.get(), kPointsPerInch);  // so that its pixels are the PDF's points
  return drawing;
}

struct Size {
  double width = 0, height = 0;
};
Size size_of(RsvgHandle* drawing) {
  Size size;
  rsvg_handle_get_intrinsic_size_in_pixels(drawing, &size.width, &size.height);
  return size;
}

std::string draw_page(cairo_surface_t* surface, cairo_t* pen, RsvgHandle* drawing, const std::string& title, std::size_t number) {
  const Size size = size_of(drawing);
  cairo_pdf_surface_set_size(surface, size.width, size.height);
  cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, title.c_str(), ("page=" + std::to_string(number)).c_str(),
                                static_cast<cairo_pdf_outline_flags_t>(0));
  const RsvgRectangle whole{0, 0, size.width, size.height};
  GError* error = nullptr;
  if (!rsvg_handle_render_document(drawing, pen, &whole, &error)) return take_reason(error);
  cairo_show_page(pen);
  return {};
}

}  // namespace

Result<std::string> bind_pdf(const std::vector<sheets::Sheet>& pages) {
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, 612, 792));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Railwright");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, kFixedDate);
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_MOD_DATE, kFixedDate);
  const Pen pen(cairo_create(surface.get()));
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const auto drawing = read_svg(pages[i], i + 1);
    if (!drawing) return tl::unexpected<Error>(drawing.error());
    const std::string reason = draw_page(surface.get(), pen.get(), drawing->get(), pages[i].title, i + 1);
    if (!reason.empty()) return fail("pdf.bad_svg", std::to_string(i + 1), {{"reason", reason}});
  }
  cairo_surface_finish(surface.get());
  const cairo_status_t status = cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS) return fail("pdf.failed", {}, {{"reason", std::string(cairo_status_to_string(status))}});
  return bytes;
}

}  // namespace railwright::cli
