"""What every form is made of: fields that read an entry, answers, and the words they are printed with.

Public: `form.Calculator`, `form.Output`, `form.NoAnswer`; `fields.Number`, `fields.Choice`, `fields.Course`.
"""
