import { Comment, Converter, ReflectionKind } from 'typedoc';
import * as z from 'zod';
import { asBuiltSummarySchema } from '../dist/export/summary/as-built-schema.js';
import { summarySchema } from '../dist/export/summary/summary-schema.js';

/** Interfaces whose members are described where their schema is: typedoc sees the members and not the words. */
const SCHEMAS = { Summary: summarySchema, AsBuiltSummary: asBuiltSummarySchema };

/** Gives members the words of their schema, and those that have one value only that value. */
export function load(app) {
  app.converter.on(Converter.EVENT_RESOLVE_END, ({ project }) => {
    for (const reflection of project.getReflectionsByKind(ReflectionKind.Interface)) {
      const schema = SCHEMAS[reflection.name];
      if (schema) describe(reflection.children, z.toJSONSchema(schema));
    }
    for (const property of project.getReflectionsByKind(ReflectionKind.Property)) {
      const { type } = property;
      if (type?.type === 'literal' && type.value !== null) say(property, `Always \`${JSON.stringify(type.value)}\`.`);
    }
  });
}

function describe(members, schema) {
  for (const member of members ?? []) {
    const field = schema.properties[member.name];
    const words = field.description ?? field.anyOf?.find((f) => f.description)?.description;
    if (words) say(member, words);
    const inner = innermost(field);
    if (inner) describe(membersOf(member.type), inner);
  }
}

function say(reflection, text) {
  reflection.comment ??= new Comment([{ kind: 'text', text }]);
}

/** The object within lists and within what may be null; undefined where there is none. */
function innermost(field) {
  if (field.properties) return field;
  if (field.items) return innermost(field.items);
  return field.anyOf?.map(innermost).find((f) => f !== undefined);
}

/** The members of that object. */
function membersOf(type) {
  if (type.type === 'reflection') return type.declaration.children;
  if (type.type === 'array') return membersOf(type.elementType);
  if (type.type === 'typeOperator') return membersOf(type.target);
  return type.types?.map(membersOf).find((members) => members !== undefined);
}
