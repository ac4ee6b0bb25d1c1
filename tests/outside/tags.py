def faults(sheet, workspace):
    return []
