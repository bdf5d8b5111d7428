#include "exchange/svg-document.h"

#include "exchange/outline-svg.h"

#include <libxml/SAX2.h>
#include <libxml/hash.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <string.h>

/* What an entity may hold: a name space or a colour, no markup and no other entity. */
#define ENTITY_BYTES_MOST 200
#define ENTITY_USES_MOST 1000

/* What is counted while the file is read; the parser carries it as its _private. */
typedef struct Guard {
    int depth, entity_uses;
    long elements, attributes;
    const xmlChar *declared; /* the entity just declared; the parser asks for it once by itself */
    bool stopped;
    Error *error;
} Guard;

/* Stops reading with an error on the line the parser has come to; the first one stands. */
static void stop(xmlParserCtxt *parser, ErrorKind kind, const char *message)
{
    Guard *guard = parser->_private;
    if (guard->stopped)
        return;
    char place[32];
    g_snprintf(place, sizeof place, "line %d", xmlSAX2GetLineNumber(parser));
    error_set(guard->error, kind, place, "%s", message);
    guard->stopped = true;
    xmlStopParser(parser);
}

static void stop_at_limit(xmlParserCtxt *parser, long most, const char *what)
{
    char message[120];
    g_snprintf(message, sizeof message, "more than %ld %s; simplify the drawing", most, what);
    stop(parser, ERROR_LIMIT, message);
}

static void start_element(void *data, const xmlChar *name, const xmlChar *prefix,
                          const xmlChar *uri, int namespaces, const xmlChar **namespace_list,
                          int attributes, int defaulted, const xmlChar **attribute_list)
{
    xmlParserCtxt *parser = data;
    Guard *guard = parser->_private;
    if (guard->stopped)
        return;
    guard->depth++;
    guard->elements++;
    guard->attributes += attributes + namespaces;
    if (guard->depth > SVG_DEPTH_MOST)
        stop_at_limit(parser, SVG_DEPTH_MOST, "elements inside one another");
    else if (guard->elements > SVG_ELEMENTS_MOST)
        stop_at_limit(parser, SVG_ELEMENTS_MOST, "elements");
    else if (guard->attributes > SVG_ATTRIBUTES_MOST)
        stop_at_limit(parser, SVG_ATTRIBUTES_MOST, "attributes");
    else
        xmlSAX2StartElementNs(data, name, prefix, uri, namespaces, namespace_list, attributes,
                              defaulted, attribute_list);
}

static void end_element(void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri)
{
    xmlParserCtxt *parser = data;
    Guard *guard = parser->_private;
    guard->depth--;
    if (!guard->stopped)
        xmlSAX2EndElementNs(data, name, prefix, uri);
}

/* Keeps only entities of plain short text, which can't grow into anything. */
static void declare_entity(void *data, const xmlChar *name, int type, const xmlChar *public_id,
                           const xmlChar *system_id, xmlChar *content)
{
    xmlParserCtxt *parser = data;
    ((Guard *)parser->_private)->declared = name;
    if (type == XML_INTERNAL_GENERAL_ENTITY && content && xmlStrlen(content) <= ENTITY_BYTES_MOST &&
        !strpbrk((const char *)content, "<&%"))
        xmlSAX2EntityDecl(data, name, type, public_id, system_id, content);
}

static xmlEntity *find_entity(void *data, const xmlChar *name)
{
    xmlParserCtxt *parser = data;
    Guard *guard = parser->_private;
    xmlEntity *entity = xmlSAX2GetEntity(data, name);
    bool asked_by_itself = guard->declared && xmlStrEqual(guard->declared, name);
    guard->declared = NULL;
    if (asked_by_itself)
        return entity;
    if (!entity)
        stop(parser, ERROR_FORMAT,
             "an entity stands for more than short text; save the drawing again as plain SVG");
    else if (++guard->entity_uses > ENTITY_USES_MOST)
        stop_at_limit(parser, ENTITY_USES_MOST, "uses of entities");
    else
        return entity;
    return NULL;
}

/* Text, comments and the rest are let go by; only elements with their attributes are kept. */
static void hook(xmlParserCtxt *parser, Guard *guard)
{
    xmlSAXHandler *sax = parser->sax;
    parser->_private = guard;
    sax->startElementNs = start_element;
    sax->endElementNs = end_element;
    sax->entityDecl = declare_entity;
    sax->getEntity = find_entity;
    sax->getParameterEntity = NULL;
    sax->resolveEntity = NULL;
    sax->externalSubset = NULL;
    sax->characters = NULL;
    sax->ignorableWhitespace = NULL;
    sax->cdataBlock = NULL;
    sax->comment = NULL;
    sax->processingInstruction = NULL;
    sax->reference = NULL;
    sax->attributeDecl = NULL;
    sax->elementDecl = NULL;
    sax->notationDecl = NULL;
    sax->unparsedEntityDecl = NULL;
}

static bool refuse_bytes(const char *bytes, size_t size, Error *error)
{
    if (size > SVG_BYTES_MOST)
        return error_set(error, ERROR_LIMIT, NULL,
                         "the file is larger than %zu MiB; simplify the drawing",
                         SVG_BYTES_MOST >> 20);
    if (size == 0)
        return error_set(error, ERROR_FORMAT, NULL, "the file is empty");
    if (size > 2 && !memcmp(bytes, "\x1f\x8b", 2))
        return error_set(error, ERROR_FORMAT, NULL,
                         "the drawing is compressed; save it again as plain SVG");
    return true;
}

static bool refuse_xml(xmlParserCtxt *parser, Error *error)
{
    const xmlError *xml = xmlCtxtGetLastError(parser);
    char place[32] = "", message[160] = "it is not XML";
    if (xml && xml->line > 0)
        g_snprintf(place, sizeof place, "line %d", xml->line);
    if (xml && xml->message)
        g_strlcpy(message, xml->message, sizeof message);
    for (char *c = message; *c; c++) /* one line, and nothing that a terminal would act on */
        if (!g_ascii_isprint(*c))
            *c = ' ';
    g_strchomp(message);
    return error_set(error, ERROR_FORMAT, place, "the file can't be read as SVG: %s", message);
}

/* Parses what the parser was made for. NULL with an error. */
static xmlDoc *parse(xmlParserCtxt *parser, Guard *guard)
{
    hook(parser, guard);
    xmlCtxtUseOptions(parser, XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING |
                                  XML_PARSE_BIG_LINES);
    xmlParseDocument(parser);
    xmlDoc *document = parser->myDoc;
    parser->myDoc = NULL;
    if (!guard->stopped && parser->wellFormed && document)
        return document;
    if (!guard->stopped)
        refuse_xml(parser, guard->error);
    svg_document_free(document);
    return NULL;
}

xmlDoc *svg_document_read(const char *bytes, size_t size, Error *error)
{
    if (!refuse_bytes(bytes, size, error))
        return NULL;
    xmlParserCtxt *parser = xmlCreateMemoryParserCtxt(bytes, (int)size);
    if (!parser) {
        error_set(error, ERROR_FORMAT, NULL, "the file can't be read as SVG");
        return NULL;
    }
    Guard guard = {.error = error};
    xmlDoc *document = parse(parser, &guard);
    xmlFreeParserCtxt(parser);
    if (!document)
        return NULL;
    xmlNode *root = xmlDocGetRootElement(document);
    if (root && !strcmp((const char *)root->name, "svg"))
        return document;
    error_set(error, ERROR_FORMAT, NULL,
              "it is XML but no SVG drawing: its first element is <%.40s>",
              root ? (const char *)root->name : "");
    svg_document_free(document);
    return NULL;
}

/* libxml2 2.9.14 forgets an entity's text as it was written. */
static void free_written_text(void *entity, void *unused, const xmlChar *name)
{
    xmlFree(((xmlEntity *)entity)->orig);
    ((xmlEntity *)entity)->orig = NULL;
}

void svg_document_free(xmlDoc *document)
{
    if (!document)
        return;
    if (document->intSubset && document->intSubset->entities)
        xmlHashScan(document->intSubset->entities, free_written_text, NULL);
    xmlFreeDoc(document);
}

/* ---- elements ---- */

long svg_line(const xmlNode *node)
{
    return xmlGetLineNo(node);
}

char *svg_attribute(const xmlNode *node, const char *name)
{
    return (char *)xmlGetNoNsProp(node, (const xmlChar *)name);
}

/* The value of one `name: value` in a style, a copy; the last one holds. */
static char *find_in_style(const char *style, const char *name)
{
    char *found = NULL;
    size_t length = strlen(name);
    while (*style) {
        size_t end = strcspn(style, ";");
        const char *c = style + strspn(style, " \t\r\n");
        if (c + length < style + end && !strncmp(c, name, length)) {
            c += length;
            c += strspn(c, " \t\r\n");
            if (*c == ':') {
                c += 1 + strspn(c + 1, " \t\r\n");
                g_free(found);
                found = c < style + end ? g_strndup(c, (gsize)(style + end - c)) : g_strdup("");
                found[strcspn(found, "!")] = 0; /* !important */
                g_strchomp(found);
            }
        }
        style += end + (style[end] == ';');
    }
    return found;
}

char *svg_style(const xmlNode *node, const char *name)
{
    char *style = svg_attribute(node, "style");
    char *found = style ? find_in_style(style, name) : NULL;
    xmlFree(style);
    return found;
}

char *svg_property(const xmlNode *node, const char *name)
{
    char *found = svg_style(node, name);
    if (found)
        return found;
    char *attribute = svg_attribute(node, name);
    found = g_strdup(attribute);
    xmlFree(attribute);
    return found;
}

bool svg_is_element(const xmlNode *node)
{
    if (node->type != XML_ELEMENT_NODE)
        return false;
    const xmlNode *root = xmlDocGetRootElement(node->doc);
    const xmlNs *ours = root->ns, *its = node->ns;
    if (!ours || !its)
        return !its || !its->prefix;
    return ours == its || xmlStrEqual(ours->href, its->href);
}
